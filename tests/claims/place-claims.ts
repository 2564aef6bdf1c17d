import { slipsIn } from '../../src/coach/place/slips';
import type { Slip } from '../../src/coach/place/slip';
import type { LevelBoundaries } from '../../src/kit/kit';
import type { Stroke } from '../../src/kit/stroke';
import type { Plan } from '../../src/match/plan';
import { expand } from '../../src/phrase/layers/expand';
import { layerShape } from '../../src/phrase/layers/layer-shape';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import type { Level } from '../../src/phrase/model/level';
import type { Phrase } from '../../src/phrase/model/phrase';
import type { Voice } from '../../src/phrase/model/voice';
import { chance, type Chance } from '../../src/time/chance';
import { steadyTempo } from '../../src/time/tempo';
import { libraryPhrases } from '../phrase/library-phrases';

/** Written apart from the follower: what is known of a layer here is read off its expanded notes alone. */

/** A note on the grid of partials. */
interface GridNote {
  /** Partials from bar 1 beat 1 of the first cycle. */
  readonly partial: number;
  /** From the partial, ms: swing and grace. */
  readonly asideMs: number;
  readonly voice: Voice;
  readonly level: Level;
  readonly isGrace: boolean;
}

/** A layer to be lost in. */
export interface PlaceCase {
  readonly phrase: Phrase;
  readonly layer: number;
  readonly partialMs: number;
  /** A whole number of cycles after which all comes again. */
  readonly cyclePartials: number;
  readonly displace: number;
  /** After how many partials it sounds the same again, be it in mid-cycle. */
  readonly round: number;
  readonly notes: readonly GridNote[];
}

const ROUNDS_LOOKED_AT = 192;
/** Partials of a layer that are there to be played: who plays no more of them can be told nothing. */
const LAID_OUT = 400;
const VELOCITIES: Readonly<Record<Level, number>> = { ghost: 34, tap: 72, accent: 113 };
const BOUNDARIES: LevelBoundaries = { ghostMax: 50, accentMin: 95 };

const NO_LEVEL = new Set<Voice>(['hi-hat pedal', 'hi-hat foot splash']);

/** Every layer of every library phrase. */
export function libraryCases(): PlaceCase[] {
  return libraryPhrases().flatMap(({ text }) => {
    const parsed = parsePhrase(text);
    if (!parsed.ok) throw new Error('no such phrase');
    return parsed.value.layers.map((_, i) => placeCase(parsed.value, i + 1));
  });
}

export function placeCase(phrase: Phrase, layer: number): PlaceCase {
  const { subdivision, cyclePartials, startBeats } = layerShape(phrase, layer);
  const partialMs = 60_000 / phrase.tempoBpm / subdivision;
  const displace = Math.round(startBeats.valueOf() * subdivision);
  const cycles = Math.ceil(LAID_OUT / cyclePartials) + 4;
  const notes = expand(phrase, layer, { cycles })
    .filter(({ cycle }) => cycle > 0)
    .map(({ onset, beat, bar, graceStep, voice, level }): GridNote => {
      const written = (bar - 1) * phrase.meter.beatsPerBar + beat.valueOf() - 1;
      const partial = Math.round(written * subdivision) - displace;
      const swungMs = (onset.valueOf() - written) * subdivision * partialMs;
      const graceMs = graceStep * Math.min(30, partialMs / 4);
      return { partial, asideMs: swungMs - graceMs, voice, level, isGrace: graceStep > 0 };
    });
  const chords = chordsOf(notes);
  let long = cyclePartials;
  while (!comesRound(chords, long)) long += cyclePartials;
  let round = 1;
  while (!comesRound(chords, round)) round++;
  return { phrase, layer, partialMs, cyclePartials: long, displace, round, notes };
}

/** What is heard on each partial: voices, and levels but the pedal's. */
function chordsOf(notes: readonly GridNote[]): Map<number, string> {
  const chords = new Map<number, string[]>();
  for (const { partial, voice, level, isGrace } of notes) {
    if (isGrace) continue;
    const chord = chords.get(partial) ?? [];
    chord.push(NO_LEVEL.has(voice) ? voice : `${voice} ${level}`);
    chords.set(partial, chord);
  }
  return new Map([...chords].map(([partial, chord]) => [partial, chord.sort().join(' + ')]));
}

const comesRound = (chords: Map<number, string>, round: number): boolean => {
  for (let i = 0; i + round < ROUNDS_LOOKED_AT; i++)
    if (chords.get(i) !== chords.get(i + round)) return false;
  return true;
};

/** How many partials of a cycle tell a shift from the place, on the average over the round. */
export function informativeACycle(
  { notes, round, cyclePartials }: PlaceCase,
  shift: number,
): number {
  const chords = chordsOf(notes);
  let differing = 0;
  for (let i = 0; i < round; i++)
    if (chords.get(i) !== chords.get((((i - shift) % round) + round) % round)) differing++;
  return (differing * cyclePartials) / round;
}

/** How somebody plays. */
export interface PlacePlayer {
  readonly spreadMs: number;
  readonly missed: number;
  readonly wrong: number;
  /** How much longer each beat is than the click's, as a share. */
  readonly slower?: number;
}

export const STEADY: PlacePlayer = { spreadMs: 12, missed: 0.05, wrong: 0.05 };
export const SLOPPY: PlacePlayer = { spreadMs: 40, missed: 0.2, wrong: 0.1 };

/** From a partial on, everything so many partials late. */
export interface TrueSlip {
  readonly from: number;
  readonly partials: number;
}

/** The strokes of somebody who plays so many partials, and slips. */
export function played(
  { notes, partialMs, displace }: PlaceCase,
  partials: number,
  player: PlacePlayer,
  random: Chance,
  slip?: TrueSlip,
): Stroke[] {
  const voices = [...new Set(notes.map(({ voice }) => voice))];
  const { slower = 0 } = player;
  const strokes: Stroke[] = [];
  const end = notes.at(-1)!.partial;
  for (const note of notes) {
    const late = slip ? slip.partials : 0;
    const places = [note.partial < (slip?.from ?? Infinity) ? note.partial : undefined];
    if (slip) places.push(note.partial + late >= slip.from ? note.partial + late : undefined);
    for (const place of places) {
      if (place === undefined || place >= partials || place > end) continue;
      const deviation = random.normal();
      const isMissed = random.share() < player.missed;
      const isWrong = random.share() < player.wrong;
      const others = voices.filter((voice) => voice !== note.voice);
      const other = (others.length > 0 ? others : (['floor tom', 'crash'] as const))[
        random.next() % Math.max(1, others.length || 2)
      ]!;
      const loudness = random.normal();
      if (isMissed) continue;
      const ms =
        ((place + displace) * partialMs + note.asideMs) * (1 + slower) +
        deviation * player.spreadMs;
      const velocity = Math.round(VELOCITIES[note.level] + 6 * loudness);
      strokes.push({
        timeUs: Math.round(ms * 1000),
        voice: isWrong ? other : note.voice,
        velocity,
        pad: 38,
      });
    }
  }
  return strokes.sort((a, b) => a.timeUs - b.timeUs);
}

export const planOf = ({ phrase, layer }: PlaceCase): Plan => ({
  phrase,
  passages: [{ fromBar: 1, layer }],
  tempo: steadyTempo(phrase.tempoBpm),
  windows: {},
});

export const slipsOf = (one: PlaceCase, strokes: readonly Stroke[]): readonly Slip[] =>
  slipsIn(planOf(one), strokes, () => BOUNDARIES);

/** The longer of two cycles and forty strokes. */
function deadline({ cyclePartials, notes, round }: PlaceCase): number {
  const inRound = notes.filter(({ partial, isGrace }) => !isGrace && partial < round).length;
  return Math.max(2 * cyclePartials, Math.ceil((40 * round) / inRound));
}

/** What is told of somebody who slips in the third cycle, by the deadline. */
export function slipRun(one: PlaceCase, shift: number, seed: number): 'right' | 'wrong' | 'silent' {
  const random = chance(seed);
  const from = 2 * one.cyclePartials + (random.next() % Math.max(one.cyclePartials, 8));
  const partials = from + deadline(one);
  if (partials - Math.min(0, shift) > one.notes.at(-1)!.partial)
    throw new Error(`${one.phrase.title}, layer ${one.layer}: the take ends before its deadline`);
  const strokes = played(one, partials, STEADY, random, { from, partials: shift });
  const slips = slipsOf(one, strokes);
  const isRight = (slip: Slip) => (slip.partials - shift) % one.round === 0;
  if (!slips.every(isRight)) return 'wrong';
  return slips.length > 0 ? 'right' : 'silent';
}

/** The shifts of a layer that there are, the shorter way round; of these, those that so few partials a cycle tell that they are exempt. */
export function shiftsOf(one: PlaceCase): { readonly told: number[]; readonly exempt: number[] } {
  const shifts = Array.from({ length: one.round - 1 }, (_, i) =>
    2 * (i + 1) > one.round ? i + 1 - one.round : i + 1,
  );
  const isTold = (shift: number) => informativeACycle(one, shift) >= LEAST_INFORMATIVE;
  return { told: shifts.filter(isTold), exempt: shifts.filter((shift) => !isTold(shift)) };
}
const LEAST_INFORMATIVE = 3;

/** Partials of a take in which nothing is lost. */
const WHOLE = 160;

/** Whether a place is claimed to be lost of somebody who keeps it. */
export const isClaimed = (one: PlaceCase, player: PlacePlayer, seed: number): boolean =>
  slipsOf(one, played(one, WHOLE, player, chance(seed))).length > 0;

/** The same of strokes on the phrase's drums at random: on most partials, or four bars in place and then two of fill. */
export function isClaimedOfHits(one: PlaceCase, seed: number, fill: boolean): boolean {
  const random = chance(seed);
  const voices = [...new Set(one.notes.map(({ voice }) => voice))];
  const inPlace = fill ? played(one, 64, STEADY, random) : [];
  const hits: Stroke[] = [...inPlace];
  for (let partial = fill ? 64 : 0; partial < (fill ? 96 : WHOLE); partial++)
    if (random.share() < 0.8)
      hits.push({
        timeUs: Math.round(
          ((partial + one.displace) * one.partialMs + STEADY.spreadMs * random.normal()) * 1000,
        ),
        voice: voices[random.next() % voices.length]!,
        velocity: 20 + (random.next() % 100),
        pad: 38,
      });
  if (fill)
    hits.push(
      ...played(one, WHOLE, STEADY, random).filter(
        ({ timeUs }) => timeUs > (95.5 + one.displace) * one.partialMs * 1000,
      ),
    );
  return slipsOf(one, hits).length > 0;
}
