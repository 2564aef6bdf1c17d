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

/** Where a tempo begins, as a fraction and as its two whole numbers. */
interface TempoStart {
  readonly beat: Beats;
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
  for (const change of changes) {
    if (!(change.bpm > 0)) throw new RangeError(`tempo must be positive, got ${change.bpm}`);
    const before = starts.at(-1);
    const usPerBeat = 60e6 / change.bpm;
    if (!before) {
      starts.push({ beat: beats(0), parts: 0, partsABeat: 1, us: 0, usPerBeat, bpm: change.bpm });
      continue;
    }
    const length = change.fromBeat.sub(before.beat).valueOf();
    if (length < 0) throw new RangeError('tempo changes must be in beat order');
    starts.push({
      beat: change.fromBeat,
      parts: Number(change.fromBeat.s * change.fromBeat.n),
      partsABeat: Number(change.fromBeat.d),
      us: before.us + length * before.usPerBeat,
      usPerBeat,
      bpm: change.bpm,
    });
  }
  const segmentAt = (beat: Beats) => {
    const next = firstFrom(starts, (start) => (start.beat.compare(beat) > 0 ? 1 : 0), 1);
    return starts[Math.max(0, next - 1)]!;
  };
  return {
    changes,
    usAt(beat) {
      const segment = segmentAt(beat);
      const since = segment === starts[0] ? beat : beat.sub(segment.beat);
      return Math.round(segment.us + since.valueOf() * segment.usPerBeat);
    },
    usAtPart(parts, partsABeat) {
      const start = startBefore(starts, parts, partsABeat);
      const length = partsSince(start, parts, partsABeat) / (partsABeat * start.partsABeat);
      return Math.round(start.us + length * start.usPerBeat);
    },
    beatAt(timeUs) {
      const next = firstFrom(starts, ({ us }) => Math.round(us), timeUs + 1);
      const { beat, us, usPerBeat } = starts[Math.max(0, next - 1)]!;
      return beat.valueOf() + (timeUs - us) / usPerBeat;
    },
    bpmAt: (beat) => segmentAt(beat).bpm,
    bpmAtPart: (parts, partsABeat) => startBefore(starts, parts, partsABeat).bpm,
  };
}

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

/**
 * One tempo throughout.
 *
 * @example steadyTempo(60).usAt(beats(-1)) // => -1000000
 */
export function steadyTempo(bpm: number): TempoMap {
  return tempoMap([{ fromBeat: beats(0), bpm }]);
}
