import {
  measureOffset,
  type MicrophoneOutcome,
} from '../../clock/latency/microphone/measure-offset';
import { clickSamples } from '../../sound/synth/clicks';
import type { ClickSound } from '../../sound/sound-event';
import type { RecordedSound } from '../../sound/microphone/record-microphone';

/** What the clock map said while something ran: audio time, seconds, and performance time, ms; ascending. */
export type ClockTable = readonly (readonly [audioSeconds: number, performanceMs: number])[];

/** Everything the measurement needs, as plain data that can go to another thread. */
export interface MicrophoneEvidence {
  readonly recorded: RecordedSound;
  readonly clocks: ClockTable;
  readonly sound: ClickSound;
  /** Audio times of the clicks, seconds. */
  readonly atSeconds: readonly number[];
  /** MIDI stamps of the strokes, performance clock, ms, ascending. */
  readonly stampsMs: readonly number[];
}

export type MicrophoneVerdict =
  | MicrophoneOutcome
  | { readonly outcome: 'refused'; readonly why: 'too quiet'; readonly sentence: string };

/** −54 dB under full scale: rooms and microphones hiss about there. Chosen, not measured. */
const TOO_QUIET = 0.002;

/** What the recording says of the rig. Takes about a second, so not on the page's own thread. */
export function analyseRecording(evidence: MicrophoneEvidence): MicrophoneVerdict {
  const { recorded, clocks, sound, atSeconds, stampsMs } = evidence;
  const peak = recorded.samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  if (peak < TOO_QUIET)
    return {
      outcome: 'refused',
      why: 'too quiet',
      sentence:
        'The microphone hears almost nothing. Choose the right one in the settings of the system, raise its level, and turn the loudspeaker up.',
    };
  return measureOffset(
    { ...recorded, performanceMsAt: (seconds) => performanceMsIn(clocks, seconds) },
    { atSeconds, samplesAt: (sampleRate) => clickSamples(sound, sampleRate) },
    stampsMs,
  );
}

/**
 * Performance time, ms, of an audio time by a table: between two entries on the line through them,
 * outside on the line through the first or last two.
 *
 * @throws RangeError with fewer than two entries.
 * @example performanceMsIn([[1, 5000], [2, 6000]], 1.5) // => 5500
 */
export function performanceMsIn(table: ClockTable, audioSeconds: number): number {
  if (table.length < 2) throw new RangeError('a clock table needs two entries');
  let after = 1;
  while (after < table.length - 1 && table[after]![0] < audioSeconds) after++;
  const [fromSeconds, fromMs] = table[after - 1]!;
  const [toSeconds, toMs] = table[after]!;
  return fromMs + ((audioSeconds - fromSeconds) / (toSeconds - fromSeconds)) * (toMs - fromMs);
}
