import { asksLevel } from '../../phrase/model/voice';
import type { Kit } from '../kit';
import { VelocityRuns } from '../velocity-runs';
import { countOf } from '../../words/words';
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

/** @example createVelocityCounts(GENERAL_MIDI).report(String) // => [] */
export function createVelocityCounts(kit: Kit): VelocityCounts {
  const counts = new Uint32Array(128 * 128);
  const runs = new VelocityRuns();
  const withLevels = new Set(
    kit.pads.filter(({ voice }) => asksLevel(voice)).map(({ note }) => note),
  );
  const strokesOf = (note: number, from: number, to: number) => {
    let sum = 0;
    for (let velocity = from; velocity <= to; velocity++) sum += counts[note * 128 + velocity]!;
    return sum;
  };
  return {
    add(note, velocity) {
      counts[note * 128 + velocity]!++;
      runs.add(note, velocity);
    },
    report(name) {
      const faults: KitFault[] = [];
      for (let note = 0; note < 128; note++) {
        const strokes = strokesOf(note, 1, TOP);
        const top = strokesOf(note, TOP, TOP);
        const first = counts.subarray(note * 128, (note + 1) * 128).findIndex((count) => count > 0);
        if (runs.isOfOneVelocity(note) && strokesOf(note, first, first) === strokes) {
          if (withLevels.has(note)) faults.push(oneVelocity(note, first, strokes, name));
          continue;
        }
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

const oneVelocity = (pad: number, velocity: number, count: number, name: PadName): KitFault => ({
  fault: 'one velocity',
  pad,
  count,
  sentence: `“${name(pad)}” sent one velocity (${velocity}) for ${countOf(count, 'stroke')}: ghosts and accents cannot be told apart there, and no level is judged.`,
  advice:
    'Strike it softly, then hard. If the velocity stays, look on the sound module for a fixed velocity or a curve that is flat, and choose one that follows the stroke; a keyboard or a plain switch may have no other.',
});
