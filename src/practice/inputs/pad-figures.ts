import type { Kit } from '../../kit/kit';
import { CROSSTALK, DOUBLE_TRIGGER } from '../../kit/pad-fault';
import { STROKE, UNMAPPED } from '../../kit/kit-reader';
import type { Voice } from '../../phrase/model/voice';
import type { MessageTrace } from './message-trace';
import { percentiles, type Percentiles } from './percentiles';

/** Velocities are counted in steps of so many. */
const VELOCITY_STEP = 8;
/** How many of the smallest gaps are told. */
const SMALLEST_GAPS = 3;

/** What one MIDI note sent, as far as the trace reaches back. */
export interface PadFigures {
  readonly note: number;
  /** The pad's name; undefined when the kit has no pad for the note. */
  readonly name: string | undefined;
  readonly voice: Voice | undefined;
  readonly strokes: number;
  /** How many strokes had a velocity of 0 to 7, 8 to 15, and so on. */
  readonly velocities: readonly number[];
  readonly softest: number;
  readonly loudest: number;
  /** Shortest times between two strokes of the note by their own stamps, ms, shortest first. */
  readonly smallestGapsMs: readonly number[];
  /** From a stroke's own stamp until the page handled it. */
  readonly delayMs: Percentiles;
  readonly doubleTriggers: number;
  readonly crosstalk: number;
}

/** The notes struck in the trace, lowest first, mapped or not. */
export function padFigures(trace: MessageTrace, kit: Kit): PadFigures[] {
  const placesOfNote = new Map<number, number[]>();
  for (let number = trace.first; number < trace.count; number++) {
    const at = trace.place(number);
    if (trace.kind[at] !== STROKE && trace.kind[at] !== UNMAPPED) continue;
    const note = trace.data1[at]!;
    const places = placesOfNote.get(note);
    if (places) places.push(at);
    else placesOfNote.set(note, [at]);
  }
  return [...placesOfNote]
    .sort(([a], [b]) => a - b)
    .map(([note, places]) => figuresOfNote(trace, kit, note, places));
}

function figuresOfNote(
  trace: MessageTrace,
  kit: Kit,
  note: number,
  places: readonly number[],
): PadFigures {
  const pad = kit.pads.find((one) => one.note === note);
  const velocities = new Array<number>(128 / VELOCITY_STEP).fill(0);
  let softest = 127;
  let loudest = 0;
  let doubleTriggers = 0;
  let crosstalk = 0;
  for (const at of places) {
    const velocity = trace.data2[at]!;
    velocities[Math.floor(velocity / VELOCITY_STEP)]!++;
    softest = Math.min(softest, velocity);
    loudest = Math.max(loudest, velocity);
    if (trace.setAside[at] === DOUBLE_TRIGGER) doubleTriggers++;
    else if (trace.setAside[at] === CROSSTALK) crosstalk++;
  }
  const stamps = Float64Array.from(places, (at) => trace.stampMs[at]!).sort();
  const gaps = stamps.subarray(1).map((stamp, i) => stamp - stamps[i]!);
  return {
    note,
    name: pad?.name,
    voice: pad?.voice,
    strokes: places.length,
    velocities,
    softest,
    loudest,
    smallestGapsMs: [...gaps.sort().subarray(0, SMALLEST_GAPS)],
    delayMs: delays(trace, places),
    doubleTriggers,
    crosstalk,
  };
}

const delays = (trace: MessageTrace, places: readonly number[]): Percentiles =>
  percentiles(Float64Array.from(places, (at) => trace.handledMs[at]! - trace.stampMs[at]!));

/** From every message's own stamp until the page handled it. */
export function deliveryOf(trace: MessageTrace): Percentiles {
  const { first, count } = trace;
  return delays(
    trace,
    Array.from({ length: count - first }, (_, i) => trace.place(first + i)),
  );
}
