import type { KitFault, PadName } from './kit-fault';

/** How often each pad sent each velocity. */
export interface VelocityCounts {
  add(note: number, velocity: number): void;
  /** Every stroke's velocity of a pad, ascending. */
  velocitiesOf(note: number): number[];
  report(name: PadName): KitFault[];
}

const TOP = 127;
/** Chosen, not measured. */
const FEWEST_STROKES = 30;
const SPIKE_FROM = 0.1;
/** A spike has more strokes than the next velocities below it together. */
const BESIDE = 10;

/** @example createVelocityCounts().velocitiesOf(38) // => [] */
export function createVelocityCounts(): VelocityCounts {
  const counts = new Uint32Array(128 * 128);
  const strokesOf = (note: number, from: number, to: number) => {
    let sum = 0;
    for (let velocity = from; velocity <= to; velocity++) sum += counts[note * 128 + velocity]!;
    return sum;
  };
  return {
    add(note, velocity) {
      counts[note * 128 + velocity]!++;
    },
    velocitiesOf(note) {
      const all: number[] = [];
      for (let velocity = 1; velocity <= TOP; velocity++)
        for (let n = counts[note * 128 + velocity]!; n > 0; n--) all.push(velocity);
      return all;
    },
    report(name) {
      const faults: KitFault[] = [];
      for (let note = 0; note < 128; note++) {
        const strokes = strokesOf(note, 1, TOP);
        const top = strokesOf(note, TOP, TOP);
        if (strokes < FEWEST_STROKES || top < SPIKE_FROM * strokes) continue;
        if (top <= strokesOf(note, TOP - BESIDE, TOP - 1)) continue;
        faults.push({
          fault: 'hot spot',
          pad: note,
          count: top,
          sentence: `${Math.round((100 * top) / strokes)} % of the strokes on “${name(note)}” came at 127, far more than just below: the gain is too high, or there is a hot spot above the sensor.`,
          advice:
            'Lower this pad’s gain or sensitivity on the sound module until hard strokes reach 127 only now and then; if that leaves only the middle loud, strike beside it or choose another trigger type.',
        });
      }
      return faults;
    },
  };
}

/** How much louder than the usual stroke a stroke on a hot spot is. Chosen, not measured. */
const HOT_RATIO = 1.4;
/** Between the two there are few strokes. */
const WARM_RATIO = 1.2;

/**
 * The share of strokes that a hot spot made louder, when the player was asked to strike evenly all
 * over the pad: a group well above the median with little in between. 0 when there is none. In music
 * the same picture is accents over ghosts and says nothing.
 *
 * @example hotShare([60, 61, 62, 60, 59, 61, 60, 62, 95, 96]) // => 0.2
 */
export function hotShare(velocities: readonly number[]): number {
  const sorted = [...velocities].sort((a, b) => a - b);
  const median = sorted[(sorted.length - 1) >> 1] ?? 0;
  const hot = sorted.filter((velocity) => velocity >= HOT_RATIO * median).length;
  const warm = sorted.filter(
    (velocity) => velocity >= WARM_RATIO * median && velocity < HOT_RATIO * median,
  ).length;
  return hot >= 2 && warm < hot / 2 ? hot / sorted.length : 0;
}
