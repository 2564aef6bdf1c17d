import type { CountChoice } from './count-choice';
import { COUNT_WORDS, type CountWord } from './sound-event';

/** A beat or partial of the meter and its syllable; in the count-in its time is negative. */
export interface SyllableMark {
  /** Integer microseconds from bar 1 beat 1. */
  readonly timeUs: number;
  readonly kind: 'bar' | 'beat' | 'partial';
  readonly label: string;
  /** Whether it counts in though bar 1 is past. */
  readonly isCountIn?: boolean;
}

/** A cycle to be counted. */
export interface CycleToCount {
  /** Integer microseconds from bar 1 beat 1. */
  readonly startUs: number;
  readonly endUs: number;
  readonly partialUs: number;
  /** Partials to a beat. */
  readonly subdivision: number;
}

/** A word and when its beat falls, integer microseconds from bar 1 beat 1; it is said short where it has little room. */
export interface CountedWord {
  readonly timeUs: number;
  readonly word: CountWord;
  readonly isShort: boolean;
}

/**
 * The room that a word needs to the one before and to the one after, in full and short: as long as the longest of them sounds
 * before its beat and after it (`synth/count-words.ts`), so that none is said into the next.
 */
export const WORD_US = { full: 300_000, short: 140_000 } as const;
/** The words of a stretch depend on what is due so far before it and after it: a word's room, and whether its neighbour has its own. */
export const COUNT_CONTEXT_US = WORD_US.full + WORD_US.short;
/** Partials that come quicker than this are not numbered. Chosen, not measured: quicker numbers are not followed. */
const NUMBER_US = 240_000;
const MOST_NUMBER = 12;

const isWord = (label: string): label is CountWord =>
  (COUNT_WORDS as readonly string[]).includes(label);

/** What could be said at a time. Where there is no room for all, the higher ranks are said. */
interface Candidate {
  readonly timeUs: number;
  readonly label: string;
  readonly rank: number;
}
const RANKS = { partial: 0, beat: 1, bar: 2 } as const;

/**
 * The words of a count, in time order. A count in the cycle goes partial by partial where these are slow enough and no
 * more than twelve, and beat by beat elsewhere; in the count-in, before time 0 or where a mark says so, the beats of the meter
 * are counted. A word that has not the room is said short, then not at all: what is between the beats first, then the beats,
 * as teachers count a quick tempo (common practice, no source).
 *
 * @param marks beats and partials of the meter in time order
 * @example countPattern({ follows: 'meter', syllables: false }, [{ timeUs: 0, kind: 'bar', label: '1' }, { timeUs: 250000, kind: 'partial', label: '&' }], []) // => [{ timeUs: 0, word: '1', isShort: false }]
 */
export function countPattern(
  { follows, syllables }: CountChoice,
  marks: readonly SyllableMark[],
  cycles: readonly CycleToCount[],
): CountedWord[] {
  if (follows === 'off') return [];
  const ofMeter = marks
    .filter(({ timeUs, isCountIn }) => follows === 'meter' || timeUs < 0 || isCountIn)
    .filter(({ kind }) => kind !== 'partial' || syllables)
    .map(({ timeUs, kind, label }) => ({ timeUs, label, rank: RANKS[kind] }));
  const all =
    follows === 'meter'
      ? ofMeter
      : [...ofMeter, ...cycles.flatMap(cycleNumbers)].sort((a, b) => a.timeUs - b.timeUs);
  const said = all.filter((_, i) => nearestUs(all, i, all[i]!.rank) >= WORD_US.short);
  return said.flatMap(({ timeUs, label }, i) => {
    const isShort = nearestUs(said, i, RANKS.partial) < WORD_US.full;
    return isWord(label) ? [{ timeUs, word: label, isShort }] : [];
  });
}

/** How far one of a list in time order is from the nearest other of a rank, or of a higher one. */
function nearestUs(all: readonly Candidate[], at: number, rank: number): number {
  const fromIt = (step: 1 | -1) => {
    for (let i = at + step; all[i]; i += step)
      if (all[i]!.rank >= rank) return Math.abs(all[i]!.timeUs - all[at]!.timeUs);
    return Infinity;
  };
  return Math.min(fromIt(-1), fromIt(1));
}

function cycleNumbers({ startUs, endUs, partialUs, subdivision }: CycleToCount): Candidate[] {
  const isByPartial =
    partialUs >= NUMBER_US && Math.round((endUs - startUs) / partialUs) <= MOST_NUMBER;
  const stepUs = isByPartial ? partialUs : partialUs * subdivision;
  const numbers: Candidate[] = [];
  for (let n = 1; n <= MOST_NUMBER; n++) {
    const timeUs = Math.round(startUs + (n - 1) * stepUs);
    // Rounding may leave the next cycle's start inside.
    if (timeUs >= endUs - 1 || timeUs < 0) break;
    numbers.push({ timeUs, label: String(n), rank: n === 1 ? RANKS.bar : RANKS.beat });
  }
  return numbers;
}
