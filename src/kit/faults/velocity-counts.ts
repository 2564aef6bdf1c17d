import type { KitFault, PadName } from './kit-fault';

/** How often each pad sent each velocity. */
export interface VelocityCounts {
  add(note: number, velocity: number): void;
  report(name: PadName): KitFault[];
}

const TOP = 127;
/** Chosen, not measured. */
const FEWEST_STROKES = 30;
const SPIKE_FROM = 0.1;
/** A spike has more strokes than the next velocities below it together. */
const BESIDE = 10;

/** @example createVelocityCounts().report(String) // => [] */
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
