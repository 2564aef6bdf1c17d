import { clamp } from '../time/whole';
import type { PlayedStroke } from './played-stroke';

/** A stroke on the grid: its partial from bar 1 beat 1, the number of its voice, its velocity. */
export interface GridStroke {
  readonly partial: number;
  readonly voice: number;
  readonly velocity: number;
}

export interface CycleFit {
  readonly partials: number;
  /** Whole rounds of it that were played. */
  readonly rounds: number;
  /** Length of the description, nats: of one cycle and all that differs from it. */
  readonly cost: number;
  /** Notes in it, or those of a shorter cycle and exceptions from it. */
  readonly notes: number;
  /** One a stroke, in order: 1 where it is of a note, 0 where it is extra. */
  readonly ofNotes: Uint8Array;
  /** How clearly it beats the next length that is no multiple of it, 0 to 1. */
  readonly confidence: number;
}

export type CycleLength = Pick<CycleFit, 'partials' | 'rounds' | 'confidence'>;

/** Longest cycle looked for, partials. Chosen, not measured: 16 bars of sixteenths. */
export const LONGEST = 256;
/**
 * What a cycle's description costs, in nats: a note to be written, an exception from a shorter cycle that
 * fits into this one, a note missed, a stroke extra. The last two are the logarithms of how rarely a
 * player does it, 3 % and a sixth of that; the first two are about the choice of a place and a voice.
 */
const NOTE = 6;
const EXCEPTION = 8;
const LONGER = 2;
const MISSED = 3.5;
export const EXTRA = 5;
/**
 * What a length costs that comes round only twice or three times, in nats: among so many lengths a few mistakes
 * fall on the same place twice by chance. Chosen on simulated playing, not measured.
 */
const FEW_ROUNDS = new Map([
  [2, 16],
  [3, 8],
]);
/** How far velocities of one level scatter, and how much one stroke may count. Chosen, not measured. */
const VELOCITY_SPREAD = 10;
const MOST_FOR_VELOCITY = 5;
/** A stroke farther than this from the others of its note has another level and leaves their mean alone. */
const ANOTHER_LEVEL = 24;

/**
 * The number of partials after which the strokes repeat: the length with the shortest description,
 * the notes of one cycle once and then everything that differs from them (Rissanen, Automatica 14,
 * 1978). Undefined when there are no strokes or nothing was played twice.
 */
export function findCycle(strokes: readonly GridStroke[]): CycleFit | undefined {
  if (strokes.length === 0) return undefined;
  const { indexed, voices, span } = indexedFromFirst(strokes);
  const descriptions = new Map<number, Description>();
  const costs: { length: number; cost: number }[] = [];
  for (let length = 1; length <= Math.min(LONGEST, Math.floor(span / 2)); length++) {
    const description = describe(indexed, voices, span, length);
    for (const shorter of descriptions.values())
      if (length % shorter.length === 0) writeAs(description, exceptions(shorter, description));
    descriptions.set(length, description);
    const few = FEW_ROUNDS.get(Math.floor(span / length)) ?? 0;
    const cost = description.written + description.played + few;
    costs.push({ length, cost });
  }
  costs.sort((a, b) => a.cost - b.cost);
  const best = costs[0];
  if (!best) return undefined;
  const rival = costs.find(({ length }) => length % best.length !== 0);
  const lead = (rival?.cost ?? Infinity) - best.cost;
  const rounds = Math.floor(span / best.length);
  const plenty = heardOften(rounds);
  const unwritten = strokes.length * NOTE;
  const repeated = clamp((1 - best.cost / unwritten) / 0.5, 0, 1);
  const confidence = (1 - Math.exp(-lead / 10)) * plenty * repeated;
  const { isNote, notes } = descriptions.get(best.length)!;
  const ofNotes = Uint8Array.from(
    indexed,
    ({ partial, voice }) => isNote[(partial % best.length) * voices + voice]!,
  );
  return { partials: best.length, rounds, cost: best.cost, notes, ofNotes, confidence };
}

/**
 * The cycle that the player says it is, heard at least once even if it ends with rests. How clearly it is
 * the cycle is not asked: `confidence` is how often it was heard.
 */
export function givenCycle(
  strokes: readonly GridStroke[],
  partials: number,
): CycleLength | undefined {
  if (strokes.length === 0) return undefined;
  const rounds = Math.max(1, Math.floor(indexedFromFirst(strokes).span / partials));
  return { partials, rounds, confidence: heardOften(rounds) };
}

const heardOften = (rounds: number): number => Math.min(1, (rounds - 1) / 2);

/** Strokes counted from the first partial, their voices numbered from 0. */
function indexedFromFirst(strokes: readonly GridStroke[]) {
  const first = Math.min(0, ...strokes.map(({ partial }) => partial));
  const last = strokes.reduce((late, { partial }) => Math.max(late, partial), 0);
  const voices = [...new Set(strokes.map(({ voice }) => voice))];
  const indexed = strokes.map(({ partial, voice, velocity }) => ({
    partial: partial - first,
    voice: voices.indexOf(voice),
    velocity,
  }));
  return { indexed, voices: voices.length, span: last - first + 1 };
}

interface Description {
  readonly length: number;
  /** By place in the cycle, then voice: the strokes' number and mean velocity, and whether they are a note. */
  readonly counts: Int32Array;
  readonly means: Float64Array;
  readonly isNote: Uint8Array;
  /** What the notes of the cycle cost, and what differs from them. */
  written: number;
  readonly played: number;
  /** Notes written, or those of a shorter cycle and exceptions from it. */
  notes: number;
}

type Written = Pick<Description, 'written' | 'notes'>;

function writeAs(description: Description, { written, notes }: Written): void {
  if (written >= description.written) return;
  description.written = written;
  description.notes = notes;
}

function describe(
  strokes: readonly GridStroke[],
  voices: number,
  span: number,
  length: number,
): Description {
  const counts = new Int32Array(length * voices);
  const means = new Float64Array(length * voices);
  const isNote = new Uint8Array(length * voices);
  const cellOf = (stroke: GridStroke) => (stroke.partial % length) * voices + stroke.voice;
  for (const stroke of strokes) {
    const cell = cellOf(stroke);
    counts[cell]!++;
    means[cell]! += (stroke.velocity - means[cell]!) / counts[cell]!;
  }
  const typical = meansWithin(strokes, cellOf, means);
  let notes = 0;
  let extras = 0;
  let played = 0;
  counts.forEach((count, cell) => {
    if (count === 0) return;
    const possible = Math.ceil((span - Math.floor(cell / voices)) / length);
    const missed = Math.max(0, possible - count) * MISSED;
    if (NOTE + missed < count * EXTRA) {
      isNote[cell] = 1;
      notes++;
      played += missed;
    } else extras += count;
  });
  for (const stroke of strokes) {
    const cell = cellOf(stroke);
    if (isNote[cell] === 0) continue;
    const off = (stroke.velocity - typical[cell]!) / VELOCITY_SPREAD;
    played += Math.min(MOST_FOR_VELOCITY, (off * off) / 2);
  }
  return {
    length,
    counts,
    means: typical,
    isNote,
    written: notes * NOTE,
    played: played + extras * EXTRA,
    notes,
  };
}

/** Means over the strokes that are near the first mean; that mean where none is. */
function meansWithin(
  strokes: readonly GridStroke[],
  cellOf: (stroke: GridStroke) => number,
  means: Float64Array,
): Float64Array {
  const counts = new Int32Array(means.length);
  const within = means.slice();
  for (const stroke of strokes) {
    const cell = cellOf(stroke);
    if (Math.abs(stroke.velocity - means[cell]!) > ANOTHER_LEVEL) continue;
    counts[cell]!++;
    const before = counts[cell] === 1 ? 0 : within[cell]!;
    within[cell] = before + (stroke.velocity - before) / counts[cell]!;
  }
  return within;
}

/** What a cycle costs to write as a shorter one that fits into it, with exceptions. */
function exceptions(shorter: Description, longer: Description): Written {
  const cells = shorter.counts.length;
  let { written, notes } = shorter;
  written += LONGER;
  longer.isNote.forEach((isNote, cell) => {
    const same = cell % cells;
    if (isNote !== shorter.isNote[same]) {
      written += EXCEPTION;
      notes++;
    } else if (isNote === 1) {
      const off = (longer.means[cell]! - shorter.means[same]!) / VELOCITY_SPREAD;
      written += Math.min(EXCEPTION, (longer.counts[cell]! * off * off) / 2);
    }
  });
  return { written, notes };
}

/** A stroke that comes again is not farther than this from one cycle later. Chosen: four times a usual spread. */
const NEAR_US = 50_000;
/** Of the strokes that could come again, so many do at least. Chosen: half would do for a sloppy player. */
const LEAST_AGAIN = 1 / 3;

/**
 * Whether strokes in time order come again a cycle later, on the same voice, or are one long round in which a
 * cycle was seen by chance.
 *
 * @example comesRound([0, 500000, 1000000].map((timeUs) => ({ timeUs, voice: 'snare', velocity: 80 })), 500000) // => true
 */
export function comesRound(strokes: readonly PlayedStroke[], cycleUs: number): boolean {
  const lastUs = (strokes.at(-1)?.timeUs ?? 0) - cycleUs + NEAR_US;
  let could = 0;
  let did = 0;
  let from = 0;
  for (const { timeUs, voice } of strokes) {
    if (timeUs > lastUs) break;
    could++;
    const dueUs = timeUs + cycleUs;
    while (strokes[from]!.timeUs < dueUs - NEAR_US) from++;
    for (let i = from; i < strokes.length && strokes[i]!.timeUs <= dueUs + NEAR_US; i++)
      if (strokes[i]!.voice === voice) {
        did++;
        break;
      }
  }
  return could > 0 && did >= could * LEAST_AGAIN;
}
