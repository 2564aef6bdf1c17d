import type { KitFault, PadName } from './kit-fault';
import { countOf } from '../../words/words';

/** Many faint strokes on one pad in no rhythm a player would play. */
export interface Chatter {
  add(timeUs: number, note: number, velocity: number): void;
  report(name: PadName): KitFault[];
}

/** Softer than any ghost that is meant. Chosen, not measured. */
const FAINT_UP_TO = 10;
const FEWEST = 20;
/** Faint strokes farther apart than this do not belong together. Chosen, not measured. */
const TOGETHER_US = 1_000_000;
/**
 * Two hands at 10 strokes a second each: the fastest drummer measured needs 100 ms a hand (Fujii et al.
 * 2009, Neurosci. Lett. 459:69-73).
 */
const FASTER_THAN_HANDS_US = 50_000;
/** Standard deviation over mean of the intervals: 1 for pure chance, 0 for an even stream. Chosen, not measured. */
const NO_RHYTHM_FROM = 0.7;

/** @example createChatter().report(String) // => [] */
export function createChatter(): Chatter {
  const lastUs = new Float64Array(128).fill(-Infinity);
  const faint = new Uint32Array(128);
  const intervals = new Uint32Array(128);
  /** Running mean and sum of squared deviations of the intervals: Welford 1962, Technometrics 4:419-420. */
  const meanUs = new Float64Array(128);
  const squares = new Float64Array(128);
  return {
    add(timeUs, note, velocity) {
      if (velocity > FAINT_UP_TO) return;
      faint[note]!++;
      const intervalUs = timeUs - lastUs[note]!;
      lastUs[note] = timeUs;
      if (!(intervalUs >= 0 && intervalUs <= TOGETHER_US)) return;
      intervals[note]!++;
      const apart = intervalUs - meanUs[note]!;
      meanUs[note]! += apart / intervals[note]!;
      squares[note]! += apart * (intervalUs - meanUs[note]!);
    },
    report(name) {
      const faults: KitFault[] = [];
      for (let note = 0; note < 128; note++) {
        if (intervals[note]! < FEWEST) continue;
        const mean = meanUs[note]!;
        const deviation = Math.sqrt(squares[note]! / (intervals[note]! - 1));
        if (mean >= FASTER_THAN_HANDS_US && deviation < NO_RHYTHM_FROM * mean) continue;
        faults.push({
          fault: 'chatter',
          pad: note,
          count: faint[note]!,
          sentence: `“${name(note)}” sent ${countOf(faint[note]!, 'faint stroke')} in no rhythm, as a pad does that shakes or whose threshold is too low.`,
          advice:
            'Raise this pad’s threshold on the sound module until it is quiet; then look at its cable and plug, and at what shakes the stand or the floor it stands on.',
        });
      }
      return faults;
    },
  };
}
