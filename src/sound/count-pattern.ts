import { COUNT_WORDS, type CountWord } from './sound-event';

/** What is counted aloud: nothing, the beats of the bar, or every cycle from one on. */
export const COUNT_FOLLOWS = ['off', 'meter', 'cycle'] as const;

export interface CountChoice {
  readonly follows: (typeof COUNT_FOLLOWS)[number];
  /** Whether the syllables between the beats are counted, too, where there is time to say them. */
  readonly syllables: boolean;
}

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

/** A word and when its beat falls, integer microseconds from bar 1 beat 1. */
export interface CountedWord {
  readonly timeUs: number;
  readonly word: CountWord;
}

/** Numbers, and syllables between beats, that come quicker than this are not said. Chosen: as long as they last. */
const NUMBER_US = 240_000;
const SYLLABLE_US = 140_000;
const MOST_NUMBER = 12;

const isWord = (label: string): label is CountWord =>
  (COUNT_WORDS as readonly string[]).includes(label);

/**
 * The words of a count, in time order. A count in the cycle goes partial by partial where these are slow enough and no
 * more than twelve, and beat by beat elsewhere; in the count-in, before time 0 or where a mark says so, the beats of the meter are counted.
 *
 * @param marks beats and partials of the meter in time order
 * @example countPattern({ follows: 'meter', syllables: false }, [{ timeUs: 0, kind: 'bar', label: '1' }, { timeUs: 250000, kind: 'partial', label: '&' }], []) // => [{ timeUs: 0, word: '1' }]
 */
export function countPattern(
  { follows, syllables }: CountChoice,
  marks: readonly SyllableMark[],
  cycles: readonly CycleToCount[],
): CountedWord[] {
  if (follows === 'off') return [];
  const counted = marks.flatMap(({ timeUs, kind, label, isCountIn }, i): CountedWord[] => {
    if (follows === 'cycle' && timeUs >= 0 && !isCountIn) return [];
    if (kind === 'partial' && !(syllables && isSlow(marks, i))) return [];
    return isWord(label) ? [{ timeUs, word: label }] : [];
  });
  if (follows === 'meter') return counted;
  return [...counted, ...cycles.flatMap(cycleWords)];
}

/** The lengths on both sides of a mark; at the ends of a list one of them. */
function isSlow(marks: readonly SyllableMark[], at: number): boolean {
  const [before, here, after] = [marks[at - 1], marks[at]!, marks[at + 1]];
  const lengths = [
    ...(before ? [here.timeUs - before.timeUs] : []),
    ...(after ? [after.timeUs - here.timeUs] : []),
  ];
  return lengths.every((us) => us >= SYLLABLE_US);
}

function cycleWords({ startUs, endUs, partialUs, subdivision }: CycleToCount): CountedWord[] {
  const isByPartial =
    partialUs >= NUMBER_US && Math.round((endUs - startUs) / partialUs) <= MOST_NUMBER;
  const stepUs = isByPartial ? partialUs : partialUs * subdivision;
  const words: CountedWord[] = [];
  for (let n = 1; n <= MOST_NUMBER; n++) {
    const timeUs = Math.round(startUs + (n - 1) * stepUs);
    // Rounding may leave the next cycle's start inside.
    if (timeUs >= endUs - 1 || timeUs < 0) break;
    words.push({ timeUs, word: String(n) as CountWord });
  }
  return words;
}
