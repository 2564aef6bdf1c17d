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
  /** Beats per minute in force at `beat`. */
  bpmAt(beat: Beats): number;
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
  const starts: { beat: Beats; us: number; usPerBeat: number; bpm: number }[] = [];
  for (const change of changes) {
    if (!(change.bpm > 0)) throw new RangeError(`tempo must be positive, got ${change.bpm}`);
    const before = starts.at(-1);
    const usPerBeat = 60e6 / change.bpm;
    if (!before) {
      starts.push({ beat: beats(0), us: 0, usPerBeat, bpm: change.bpm });
      continue;
    }
    const length = change.fromBeat.sub(before.beat).valueOf();
    if (length < 0) throw new RangeError('tempo changes must be in beat order');
    starts.push({
      beat: change.fromBeat,
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
    bpmAt: (beat) => segmentAt(beat).bpm,
  };
}

/**
 * One tempo throughout.
 *
 * @example steadyTempo(60).usAt(beats(-1)) // => -1000000
 */
export function steadyTempo(bpm: number): TempoMap {
  return tempoMap([{ fromBeat: beats(0), bpm }]);
}
