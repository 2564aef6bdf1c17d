import { mean, sum } from 'simple-statistics';
import { isCountIn, silentAfter, type Plan } from '../match/plan';
import { isTimed } from '../score/figures';
import type { JudgedNote } from '../score/judged-note';
import { beats } from '../time/beats';
import { between } from '../time/first-from';
import type { BarStretch } from '../time/silent-bars';

/**
 * What came of bars without a click. The error at the return is the mean offset of the last beat without it and of what
 * is due with the click that ends it, which nobody hears before the stroke, less the mean offset of the bars with a click
 * before. A steady player whose every beat scatters by s is off by s√n after n beats (a random walk; Wing & Kristofferson
 * 1973, Percept. Psychophys. 14:5-12 [M]). For s stands the spread beside the click at that tempo, which is rather too large.
 */
export interface ClickReturn extends BarStretch {
  /** Beats without a click. */
  readonly beats: number;
  /** Early negative; undefined where fewer than half of the notes there were answered, or a count-in broke in. */
  readonly errorMs: number | undefined;
  /** One standard deviation of what chance alone makes; undefined before the bars with a click show a spread. */
  readonly chanceMs: number | undefined;
  /** What is due there. */
  readonly notes: readonly JudgedNote[];
}

/** Where one is told from, integer microseconds from bar 1 beat 1. */
interface ReturnSpan {
  readonly stretch: BarStretch;
  readonly bpm: number;
  readonly fromUs: number;
  readonly silentUs: number;
  readonly lastBeatUs: number;
  readonly returnUs: number;
}

/** Fewer strokes tell no spread. Chosen, not measured. */
const FEWEST_FOR_SPREAD = 8;

/** The returns of a click one by one, as the notes of each are settled. */
export class ReturnWalk {
  readonly returns: ClickReturn[] = [];
  /** Offsets of the bars with a click, ms, stretch by stretch, and the tempo of each. */
  readonly #steady: { readonly bpm: number; readonly offsets: readonly number[] }[] = [];

  /** Where the next one is told from; undefined where the click never stops. */
  next(plan: Plan): ReturnSpan | undefined {
    const { phrase, tempo, silentBars: rule } = plan;
    const stretch = silentAfter(plan, this.returns.at(-1)?.toBar ?? 0);
    if (!rule || !stretch) return undefined;
    const { beatsPerBar } = phrase.meter;
    const beatUs = (beat: number) => tempo.usAt(beats(beat));
    // Whoever comes from a stretch before, or from another tempo, finds the click again in the first bar.
    const isFirst = stretch.fromBar === rule.sounding + 1;
    const bars = rule.sounding - (!isFirst && rule.sounding > 1 ? 1 : 0);
    return {
      stretch,
      bpm: tempo.bpmAt(beats((stretch.fromBar - 1) * beatsPerBar)),
      fromUs: beatUs((stretch.fromBar - 1 - bars) * beatsPerBar),
      silentUs: beatUs((stretch.fromBar - 1) * beatsPerBar),
      lastBeatUs: beatUs(stretch.toBar * beatsPerBar - 1),
      returnUs: beatUs(stretch.toBar * beatsPerBar),
    };
  }

  /** Tells the next one. @param notes in time order, from its `fromUs` up to its `returnUs` at least */
  add(plan: Plan, notes: readonly JudgedNote[]): void {
    const span = this.next(plan);
    if (!span) return;
    const { stretch, bpm, fromUs, silentUs, lastBeatUs, returnUs } = span;
    const steady = offsetsMs(between(notes, timeUs, fromUs, silentUs));
    const last = between(notes, timeUs, lastBeatUs, returnUs + 1);
    const offsets = offsetsMs(last);
    const isWhole = !barsOf(stretch).some((bar) => isCountIn(plan, bar));
    const isTold =
      isWhole && offsets.length > 0 && 2 * offsets.length >= last.length && steady.length > 0;
    this.#steady.push({ bpm, offsets: steady });
    const spreadMs = spreadWithin(
      this.#steady.flatMap((one) => (one.bpm === bpm ? [one.offsets] : [])),
    );
    const count = (stretch.toBar - stretch.fromBar + 1) * plan.phrase.meter.beatsPerBar;
    this.returns.push({
      ...stretch,
      beats: count,
      errorMs: isTold ? mean(offsets) - mean(steady) : undefined,
      chanceMs: spreadMs === undefined ? undefined : spreadMs * Math.sqrt(count),
      notes: last,
    });
  }
}

/**
 * The returns of a take's click, in order, as far as its notes go beyond them; none where the click never stopped.
 *
 * @param notes in time order
 * @example clickReturns({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, []) // => []
 */
export function clickReturns(plan: Plan, notes: readonly JudgedNote[]): readonly ClickReturn[] {
  const walk = new ReturnWalk();
  const endUs = notes.at(-1)?.due.timeUs ?? -Infinity;
  for (let span = walk.next(plan); span && span.returnUs < endUs; span = walk.next(plan))
    walk.add(plan, between(notes, timeUs, span.fromUs, span.returnUs + 1));
  return walk.returns;
}

/** What several returns come to. */
export interface MeanReturn {
  readonly count: number;
  /** Early negative. */
  readonly errorMs: number;
  /** One standard deviation of what chance alone makes of the mean. */
  readonly chanceMs: number;
  /** What the errors themselves show of it: their standard error; undefined for one. */
  readonly standardErrorMs: number | undefined;
}

/** Of those that can be told; undefined where there is none. */
export function meanReturn(returns: readonly ClickReturn[]): MeanReturn | undefined {
  const known = returns.flatMap(({ errorMs, chanceMs }) =>
    errorMs === undefined || chanceMs === undefined ? [] : [{ errorMs, chanceMs }],
  );
  if (known.length === 0) return undefined;
  const count = known.length;
  const errorMs = mean(known.map((one) => one.errorMs));
  const squares = sum(known.map((one) => (one.errorMs - errorMs) ** 2));
  return {
    count,
    errorMs,
    chanceMs: Math.sqrt(sum(known.map(({ chanceMs }) => chanceMs ** 2))) / count,
    standardErrorMs: count > 1 ? Math.sqrt(squares / (count - 1) / count) : undefined,
  };
}

const barsOf = ({ fromBar, toBar }: BarStretch): number[] =>
  Array.from({ length: toBar - fromBar + 1 }, (_, i) => fromBar + i);

const timeUs = ({ due }: JudgedNote) => due.timeUs;

const offsetsMs = (notes: readonly JudgedNote[]): number[] =>
  notes.flatMap((note) =>
    isTimed(note) && note.offsetUs !== undefined ? [note.offsetUs / 1000] : [],
  );

/** Spread about the means of the stretches, so that what lies between them does not count. */
function spreadWithin(stretches: readonly (readonly number[])[]): number | undefined {
  const counted = stretches.filter(({ length }) => length > 1);
  const df = sum(counted.map(({ length }) => length - 1));
  if (df < FEWEST_FOR_SPREAD) return undefined;
  const squares = counted.map((offsets) => {
    const middle = mean([...offsets]);
    return sum(offsets.map((offset) => (offset - middle) ** 2));
  });
  return Math.sqrt(sum(squares) / df);
}
