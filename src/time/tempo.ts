import { beats, type Beats } from './beats';
import { firstFrom } from './first-from';

/** From `fromBeat` on the tempo is `bpm` beats per minute, until the next change. */
export interface TempoChange {
  readonly fromBeat: Beats;
  readonly bpm: number;
}

/** Tempo over the beats of a take. Before the first change its tempo holds, so pickups have a time. */
export interface TempoMap {
  readonly changes: readonly TempoChange[];
  /** Integer microseconds from beat 0 (bar 1 beat 1) to `beat`; negative before it. */
  usAt(beat: Beats): number;
  /** The same after so many parts of a beat, `partsABeat` to each, both whole: no fraction is made. */
  usAtPart(parts: number, partsABeat: number): number;
  /** The beat at a time, integer microseconds from beat 0; a time that was rounded gives one beside it. */
  beatAt(us: number): number;
  /** Beats per minute in force at `beat`. */
  bpmAt(beat: Beats): number;
  bpmAtPart(parts: number, partsABeat: number): number;
}

/** Where a tempo begins, in parts of a beat. */
interface TempoStart {
  readonly parts: number;
  readonly partsABeat: number;
  readonly us: number;
  readonly usPerBeat: number;
  readonly bpm: number;
}

/**
 * A tempo map from changes in beat order; the first one's place is taken as beat 0.
 *
 * @throws RangeError when there is no change, a bpm is not positive, or the order is wrong.
 * @example tempoMap([{ fromBeat: beats(0), bpm: 120 }]).usAt(beats(3, 2)) // => 750000
 */
export function tempoMap(changes: readonly TempoChange[]): TempoMap {
  const first = changes[0];
  if (!first) throw new RangeError('a tempo map needs at least one tempo');
  const starts: TempoStart[] = [];
  for (const { fromBeat, bpm } of changes) {
    if (!(bpm > 0)) throw new RangeError(`tempo must be positive, got ${bpm}`);
    const before = starts.at(-1);
    const usPerBeat = 60e6 / bpm;
    if (!before) {
      starts.push({ parts: 0, partsABeat: 1, us: 0, usPerBeat, bpm });
      continue;
    }
    const parts = partsOf(fromBeat);
    const partsABeat = Number(fromBeat.d);
    const length = beatsSince(before, parts, partsABeat);
    if (length < 0) throw new RangeError('tempo changes must be in beat order');
    starts.push({ parts, partsABeat, us: before.us + length * before.usPerBeat, usPerBeat, bpm });
  }
  const usAtPart = (parts: number, partsABeat: number) => {
    const start = startBefore(starts, parts, partsABeat);
    return Math.round(start.us + beatsSince(start, parts, partsABeat) * start.usPerBeat);
  };
  const bpmAtPart = (parts: number, partsABeat: number) =>
    startBefore(starts, parts, partsABeat).bpm;
  return {
    changes,
    usAt: (beat) => usAtPart(partsOf(beat), Number(beat.d)),
    usAtPart,
    beatAt(timeUs) {
      const next = firstFrom(starts, ({ us }) => Math.round(us), timeUs + 1);
      const { parts, partsABeat, us, usPerBeat } = starts[Math.max(0, next - 1)]!;
      return parts / partsABeat + (timeUs - us) / usPerBeat;
    },
    bpmAt: (beat) => bpmAtPart(partsOf(beat), Number(beat.d)),
    bpmAtPart,
  };
}

/** A place as so many parts of which its denominator makes a beat. */
const partsOf = (beat: Beats): number => Number(beat.s * beat.n);

/** The last start at or before a place, the first one where there is none. */
function startBefore(starts: readonly TempoStart[], parts: number, partsABeat: number): TempoStart {
  let low = 0;
  let high = starts.length;
  while (high - low > 1) {
    const middle = (low + high) >>> 1;
    if (partsSince(starts[middle]!, parts, partsABeat) >= 0) low = middle;
    else high = middle;
  }
  return starts[low]!;
}

/** From a start to a place, in parts of which `partsABeat` times the start's own make a beat. */
const partsSince = (start: TempoStart, parts: number, partsABeat: number): number =>
  parts * start.partsABeat - start.parts * partsABeat;

const beatsSince = (start: TempoStart, parts: number, partsABeat: number): number =>
  partsSince(start, parts, partsABeat) / (partsABeat * start.partsABeat);

/**
 * One tempo throughout.
 *
 * @example steadyTempo(60).usAt(beats(-1)) // => -1000000
 */
export function steadyTempo(bpm: number): TempoMap {
  return tempoMap([{ fromBeat: beats(0), bpm }]);
}
