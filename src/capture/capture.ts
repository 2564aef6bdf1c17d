import type { PatternNote, TargetPattern } from '../phrase/decompose/target-pattern';
import { swingText } from '../phrase/model/swing';
import { parseMeter } from '../time/meter';
import { bad, good, type Result } from '../time/result';
import { captureFinding, type CaptureFinding } from './capture-finding';
import { consensus } from './consensus';
import { LONGEST } from './cycle-length';
import { levelsOf } from './levels-of';
import { placeInBeats, type BeatPulse } from './place-in-beats';
import type { PlayedStroke } from './played-stroke';
import { pickupOf } from './pickup-of';
import { findSticking } from './sticking';
import { bestHearing } from './hearing';

export interface CaptureOptions {
  /** The tempo of the click it was played to; bar 1 beat 1 is then at 0. Found from the strokes when absent. */
  readonly clickBpm?: number | undefined;
  /** The meter it is written in, such as "7/8"; 4/4 when absent. */
  readonly meter?: string | undefined;
  /** The length of the cycle, where the player says it: 1 to LONGEST. Found from the strokes when absent. */
  readonly cyclePartials?: number | undefined;
  /** The pulse by which the strokes were placed before, if they were (see placeInBeats). */
  readonly pulse?: BeatPulse | undefined;
}

export interface Captured {
  readonly pattern: TargetPattern;
  /** Whole rounds of the cycle that were heard. */
  readonly rounds: number;
  /** One for each thing found, each with how sure it is. */
  readonly findings: readonly CaptureFinding[];
}

export interface CaptureError {
  readonly code: 'too-few-strokes' | 'no-pulse' | 'no-cycle' | 'meter';
  readonly message: string;
}

/** Fewer strokes than this are no phrase played several times. Chosen, not measured. */
const LEAST_STROKES = 8;
/** A note struck in less of the rounds than this may belong to a longer cycle. Chosen, not measured. */
const DOUBTFUL_BELOW = 0.65;
const USUAL_METER = '4/4';
/** @example roundsWords(8) // => '8 times round' */
export const roundsWords = (rounds: number): string =>
  rounds === 1 ? 'once round' : `${rounds} times round`;
const isCycle = (partials: number): boolean =>
  Number.isInteger(partials) && partials >= 1 && partials <= LONGEST;

/** Strokes of a phrase played several times round, written down. Times are from bar 1 beat 1 where there was a click. */
export function capture(
  strokes: readonly PlayedStroke[],
  { clickBpm, meter: meterText = USUAL_METER, cyclePartials, pulse: before }: CaptureOptions = {},
): Result<Captured, CaptureError> {
  const meter = parseMeter(meterText);
  if (!meter)
    return bad({ code: 'meter', message: `"${meterText}" is no meter; write one such as 4/4.` });
  if (cyclePartials !== undefined && !isCycle(cyclePartials))
    return bad({
      code: 'no-cycle',
      message: `A cycle has 1 to ${LONGEST} whole partials, not ${cyclePartials}.`,
    });
  if (strokes.length < LEAST_STROKES)
    return bad({
      code: 'too-few-strokes',
      message: `Found ${strokes.length} strokes, expected at least ${LEAST_STROKES}; play the phrase several times round.`,
    });
  const placed = placeInBeats(
    strokes.toSorted((a, b) => a.timeUs - b.timeUs),
    clickBpm,
  );
  if (!placed)
    return bad({
      code: 'no-pulse',
      message:
        'Found no pulse from 60 to 200 beats a minute in the strokes; play to a click or say the tempo.',
    });

  const beatUs = 60e6 / placed.tempoBpm;
  // A file states a click in whole microseconds a beat; without one nobody plays to a hundredth.
  const fineness = clickBpm === undefined ? 10 : 100;
  const tempoBpm = Math.round(placed.tempoBpm * fineness) / fineness;
  const pulse = before ?? placed.pulse;
  const heard = bestHearing(placed.strokes, beatUs, meter.unit === 4, {
    cyclePartials,
    pulses: pulse?.pulses,
  });
  const { grid, partialUs, marks, onGrid, cycle } = heard;
  const gridConfidence = Math.min(heard.confidence, pulse?.confidence ?? 1);
  const { partials } = onGrid;
  if (!cycle)
    return bad({
      code: 'no-cycle',
      message: 'Nothing was played twice; play the phrase several times round.',
    });
  const inRounds = placed.strokes.map((_, i) => i).filter((i) => partials[i]! >= 0);
  const rounds = consensus(placed.strokes, onGrid, marks, cycle.partials);
  const sticking = findSticking(rounds, cycle.partials, partialUs);
  const levels = levelsOf(rounds);
  const notes: PatternNote[] = rounds.flatMap(({ partial, voice, graces }, i) => {
    const limb = sticking.limbs[i];
    if (!limb) return [];
    const graceHand = limb === 'R' ? 'L' : 'R';
    const level = levels.levels[i]!;
    return [
      { partial, limb, voice, level, graces: Array.from({ length: graces }, () => graceHand) },
    ];
  });
  const pattern: TargetPattern = {
    meter: meterText,
    subdivision: grid.subdivision,
    cyclePartials: cycle.partials,
    tempoBpm,
    ...(grid.swing && { swing: swingText(grid.swing) }),
    notes,
    pickup: pickupOf(placed.strokes, partials, meter.beatsPerBar * grid.subdivision),
  };
  const struck = inRounds.length;
  const agreement =
    rounds.reduce((sum, note) => sum + note.agreement, 0) / Math.max(1, rounds.length);
  const written = rounds.reduce(
    (sum, note) => sum + note.agreement * (1 + note.graces) * (cycle.rounds + 0.5),
    0,
  );
  const least = rounds.reduce((low, note) => Math.min(low, note.agreement), 1);
  const doubt = least < DOUBTFUL_BELOW ? least / 2 : 1;
  const told = Math.min(1, written / Math.max(1, struck));
  return good({
    pattern,
    rounds: cycle.rounds,
    findings: [
      captureFinding('tempo', placed.tempoConfidence, `${tempoBpm} beats a minute${placed.orElse}`),
      captureFinding(
        'meter position',
        Math.min(placed.placeConfidence, gridConfidence),
        clickBpm === undefined
          ? 'bar 1 is taken to begin with the first stroke on a beat'
          : 'bar 1 begins where the count-in ends',
      ),
      captureFinding(
        'subdivision',
        Math.min(gridConfidence, placed.tempoConfidence),
        `${grid.subdivision} partials a beat${grid.swing ? `, swung ${swingText(grid.swing)}` : ''}`,
      ),
      captureFinding(
        'cycle',
        Math.min(cycle.confidence, gridConfidence),
        `${cycle.partials} partials, ${roundsWords(cycle.rounds)}`,
      ),
      captureFinding(
        'notes',
        Math.min(cycle.confidence, gridConfidence, agreement * told, doubt),
        `${notes.length} in a cycle, in ${Math.floor(agreement * 100)} % of the rounds on average`,
      ),
      captureFinding('levels', levels.confidence, levels.sentence),
      captureFinding('sticking', sticking.confidence, notes.map(({ limb }) => limb).join(' ')),
    ],
  });
}
