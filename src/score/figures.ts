import { max, mean, median, min } from 'simple-statistics';
import type { JudgedNote } from './judged-note';
import { robustSpread, spread } from './statistics/spread';
import { theilSen, type Point } from './statistics/theil-sen';

/**
 * The figures of a group of notes. Offsets are stroke minus note in ms, early negative, and only
 * answered notes of the right voice have one here: a wrong voice is told by its pair, and its offset
 * would say more about the move than about the time. A figure that the notes cannot support is
 * undefined, never 0.
 */
export interface Figures {
  /** Notes in the group. */
  readonly count: number;
  /** Notes that some stroke answers, wrong voices included. */
  readonly answered: number;
  readonly inTime: number;
  readonly early: number;
  readonly late: number;
  readonly missed: number;
  readonly wrongVoice: number;
  readonly tooLoud: number;
  readonly tooSoft: number;
  /** Share of the notes that are in time, in the written voice and at no other level than written, 0 to 1. */
  readonly asWritten: number | undefined;
  /** How many offsets the figures below rest on. */
  readonly timed: number;
  readonly meanMs: number | undefined;
  readonly medianMs: number | undefined;
  /** Standard deviation, n - 1. */
  readonly spreadMs: number | undefined;
  /** Scaled median absolute deviation. */
  readonly robustSpreadMs: number | undefined;
  /** Theil-Sen slope of offset against the note's time, ms per minute: positive drags, negative rushes. */
  readonly driftMsPerMinute: number | undefined;
}

/**
 * In time, in the written voice and at the written level, where the stroke tells one.
 *
 * @example isAsWritten({ verdict: 'in time', levelVerdict: 'too loud' }) // => false
 */
export const isAsWritten = (note: Pick<JudgedNote, 'verdict' | 'levelVerdict'>): boolean =>
  note.verdict === 'in time' && (note.levelVerdict ?? 'as written') === 'as written';

/**
 * Whether the note's offset counts in timing figures: answered, in the written voice.
 *
 * @example isTimed({ verdict: 'late' }) // => true
 */
export const isTimed = ({ verdict }: Pick<JudgedNote, 'verdict'>): boolean =>
  verdict === 'in time' || verdict === 'early' || verdict === 'late';

/** @example figuresOf([]).asWritten // => undefined */
export function figuresOf(notes: readonly JudgedNote[]): Figures {
  const verdicts = { 'in time': 0, early: 0, late: 0, missed: 0, 'wrong voice': 0 };
  let tooLoud = 0;
  let tooSoft = 0;
  let asWritten = 0;
  const offsetsUs: number[] = [];
  const course: Point[] = [];
  for (const note of notes) {
    verdicts[note.verdict]++;
    if (note.levelVerdict === 'too loud') tooLoud++;
    if (note.levelVerdict === 'too soft') tooSoft++;
    if (isAsWritten(note)) asWritten++;
    if (isTimed(note) && note.offsetUs !== undefined) {
      offsetsUs.push(note.offsetUs);
      course.push({ x: note.due.timeUs, y: note.offsetUs });
    }
  }
  const timed = offsetsUs.length;
  // Told where they are asked for: they cost more than all else, and of few groups they are asked.
  const medianMs = once(() => (timed > 0 ? median(offsetsUs) / 1000 : undefined));
  const robustSpreadMs = once(() => inMs(robustSpread(offsetsUs)));
  const driftMsPerMinute = once(() => driftOf(course));
  return {
    count: notes.length,
    answered: notes.length - verdicts.missed,
    inTime: verdicts['in time'],
    early: verdicts.early,
    late: verdicts.late,
    missed: verdicts.missed,
    wrongVoice: verdicts['wrong voice'],
    tooLoud,
    tooSoft,
    asWritten: notes.length > 0 ? asWritten / notes.length : undefined,
    timed,
    meanMs: timed > 0 ? mean(offsetsUs) / 1000 : undefined,
    get medianMs() {
      return medianMs();
    },
    spreadMs: inMs(spread(offsetsUs)),
    get robustSpreadMs() {
      return robustSpreadMs();
    },
    get driftMsPerMinute() {
      return driftMsPerMinute();
    },
  };
}

/** Fewer strokes, or a shorter time, tell no drift: a slope over two strokes is their scatter. Chosen, not measured. */
export const FEWEST_FOR_DRIFT = 8;
export const SHORTEST_FOR_DRIFT_US = 3_000_000;

function isLongEnough(course: readonly Point[]): boolean {
  if (course.length < FEWEST_FOR_DRIFT) return false;
  const times = course.map(({ x }) => x);
  return max(times) - min(times) >= SHORTEST_FOR_DRIFT_US;
}

function driftOf(course: readonly Point[]): number | undefined {
  const slope = isLongEnough(course) ? theilSen(course) : undefined;
  // µs per µs, times 60,000 ms in a minute.
  return slope === undefined ? undefined : slope * 60_000;
}

/** What is worked out once, at the first asking. */
function once<Value>(work: () => Value): () => Value {
  let answer: { readonly value: Value } | undefined;
  return () => (answer ??= { value: work() }).value;
}

const inMs = (us: number | undefined) => (us === undefined ? undefined : us / 1000);
