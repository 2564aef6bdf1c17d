import type { PatternNote, PatternPickup, TargetPattern } from '../phrase/decompose/target-pattern';
import { swingText } from '../phrase/model/swing';
import type { Meter } from '../time/meter';
import { captureFinding, type CaptureFinding } from './capture-finding';
import { consensus, type ConsensusNote, type StruckPlace } from './consensus';
import { isFootVoice } from '../phrase/playability/places';
import { findLevels } from './level-clusters';
import { levelsOf } from './level-clusters';
import { tempoShown, type Placement } from './place-in-bars';
import type { StrokeInBeats } from './played-stroke';
import { freeHand, isHand } from '../phrase/model/limb';
import { countOf } from '../words/words';
import { correctHands, type HandCorrections } from './hand-corrections';
import { findSticking } from '../phrase/playability/find-sticking';

export interface Transcription {
  readonly pattern: TargetPattern;
  /** Whole rounds of the cycle that were heard. */
  readonly rounds: number;
  /** One for each thing found, each with how sure it is. */
  readonly findings: readonly CaptureFinding[];
  /** Notes written down that came in hardly more than half of the rounds: missed, or of a longer cycle. */
  readonly inSomeRounds: readonly StruckPlace[];
  /** What was struck in fewer than half of the rounds, and is not written down. */
  readonly leftOut: readonly StruckPlace[];
}

/**
 * A note struck in less of the rounds than this is named. Nearly all of those are the phrase's own, missed by chance
 * (`npm run claims`), so that no more is said of them. Chosen, not measured.
 */
const EACH_TIME_FROM = 0.65;
/** So many places are named; of the rest it is told how many they are. Chosen. */
const MOST_NAMED = 3;

/** @example roundsWords(8) // => '8 times round' */
export const roundsWords = (rounds: number): string =>
  rounds === 1 ? 'once round' : `${rounds} times round`;

/**
 * Strokes placed in bars, written down as the notes of one cycle; undefined where nothing was played twice. `meterText`
 * is the meter as it is written; no sound tells the hands, so that what is said of them counts.
 */
export function transcribe(
  placement: Placement,
  meter: Meter,
  meterText: string,
  handCorrections: HandCorrections = {},
): Transcription | undefined {
  const { strokes, bpm, tempo, start, hearing, gridConfidence } = placement;
  const { grid, partialUs, marks, onGrid, cycle } = hearing;
  if (!cycle) return undefined;
  const { notes: agreed, strays } = consensus(strokes, onGrid, marks, cycle.partials);
  const { leads, handsSwapped } = handCorrections;
  const heardLead = leads && handsSwapped ? freeHand(leads) : leads;
  const sticking = findSticking(agreed, cycle.partials, partialUs, heardLead);
  const levels = levelsOf(agreed);
  const heard: PatternNote[] = agreed.flatMap(({ partial, voice, graces }, i) => {
    const limb = sticking.limbs[i];
    if (!limb) return [];
    const graceHand = freeHand(limb);
    const level = levels.levels[i]!;
    return [
      { partial, limb, voice, level, graces: Array.from({ length: graces }, () => graceHand) },
    ];
  });
  const { partials } = onGrid;
  const likely: TargetPattern = {
    meter: meterText,
    subdivision: grid.subdivision,
    cyclePartials: cycle.partials,
    tempoBpm: tempoShown(bpm),
    ...(grid.swing && { swing: swingText(grid.swing) }),
    notes: heard,
    pickup: pickupOf(strokes, partials, meter.beatsPerBar * grid.subdivision),
  };
  const { notes, pickup, said } = correctHands(likely, handCorrections);
  const pattern: TargetPattern = { ...likely, notes, pickup };
  const byHand = notes.filter(({ limb }) => isHand(limb)).length;
  const unsaid = byHand === 0 ? 1 : 1 - said / byHand;
  const inSomeRounds = agreed.filter(({ agreement }) => agreement < EACH_TIME_FROM);
  const struck = partials.filter((partial) => partial >= 0).length;
  const swung = grid.swing ? `, swung ${swingText(grid.swing)}` : '';
  const isGiven = cycle.isGiven;
  return {
    pattern,
    rounds: cycle.rounds,
    inSomeRounds,
    leftOut: strays,
    findings: [
      captureFinding('tempo', tempo.confidence, tempo.words),
      captureFinding('meter position', Math.min(start.confidence, gridConfidence), start.words),
      captureFinding(
        'subdivision',
        Math.min(gridConfidence, tempo.confidence),
        `${grid.subdivision} partials a beat${swung}`,
      ),
      captureFinding(
        'cycle',
        isGiven ? 1 : Math.min(cycle.confidence, gridConfidence),
        `${cycle.partials} partials, ${isGiven ? 'as you said, ' : ''}${roundsWords(cycle.rounds)}`,
      ),
      captureFinding(
        'notes',
        Math.min(cycle.confidence, gridConfidence, agreementOf(agreed, cycle.rounds, struck)),
        notesWords(agreed, notes.length, inSomeRounds, strays),
      ),
      captureFinding('levels', levels.confidence, levels.sentence),
      captureFinding(
        'sticking',
        sticking.confidence * unsaid + (1 - unsaid),
        `${notes.map(({ limb }) => limb).join(' ')}${said > 0 ? `; ${said} of ${countOf(byHand, 'stroke')} as you said` : ''}`,
      ),
    ],
  };
}

/**
 * The strokes before bar 1 beat 1, at most a bar of `barPartials`: played once, so nothing but these
 * strokes speaks for them. One a limb and partial.
 */
function pickupOf(
  strokes: readonly StrokeInBeats[],
  partials: Int32Array,
  barPartials: number,
): PatternPickup[] {
  const pickup: PatternPickup[] = [];
  strokes.forEach(({ voice, velocity }, i) => {
    const partialsBefore = -partials[i]!;
    if (partialsBefore < 1 || partialsBefore > barPartials) return;
    const taken = (limb: string) =>
      pickup.some((one) => one.partialsBefore === partialsBefore && one.limb === limb);
    const hand = partialsBefore % 2 === 0 ? (['R', 'L'] as const) : (['L', 'R'] as const);
    const limbs = isFootVoice(voice) ? ([voice === 'bass drum' ? 'K' : 'F'] as const) : hand;
    const limb = limbs.find((candidate) => !taken(candidate));
    const level = findLevels([velocity]).levels[0]!;
    if (limb) pickup.push({ partialsBefore, limb, voice, level });
  });
  return pickup;
}

/** How well the rounds agree on the notes that come each time, and how much of what was struck the notes explain. */
function agreementOf(agreed: readonly ConsensusNote[], rounds: number, struck: number): number {
  const clear = agreed.filter(({ agreement }) => agreement >= EACH_TIME_FROM);
  const explained = agreed.reduce(
    (sum, note) => sum + note.agreement * (1 + note.graces) * (rounds + 0.5),
    0,
  );
  return mean(clear) * Math.min(1, explained / Math.max(1, struck));
}

const mean = (notes: readonly ConsensusNote[]): number =>
  notes.reduce((sum, { agreement }) => sum + agreement, 0) / Math.max(1, notes.length);

function notesWords(
  agreed: readonly ConsensusNote[],
  count: number,
  inSomeRounds: readonly StruckPlace[],
  leftOut: readonly StruckPlace[],
): string {
  const found = `${count} in a cycle, in ${Math.floor(mean(agreed) * 100)} % of the rounds on average`;
  const some = inSomeRounds.length > 0 ? `; in some rounds only: ${placesWords(inSomeRounds)}` : '';
  return `${found}${some}${leftOut.length > 0 ? `; left out: ${placesWords(leftOut)}` : ''}`;
}

/**
 * The places struck most often first, and how many more there are.
 *
 * @example placesWords([{ partial: 4, voice: 'crash', rounds: 1, of: 8 }]) // => 'crash on partial 5 (1 of 8 rounds)'
 */
export function placesWords(places: readonly StruckPlace[]): string {
  const named = places
    .toSorted((a, b) => b.rounds / b.of - a.rounds / a.of)
    .slice(0, MOST_NAMED)
    .map(
      ({ partial, voice, rounds, of }) =>
        `${voice} on partial ${partial + 1} (${rounds} of ${of} rounds)`,
    );
  const more = places.length - named.length;
  return `${named.join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
}
