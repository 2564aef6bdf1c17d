import type { OffsetMethod, Rig, RigProfile } from '../../../../clock/latency/rig-profile';
import { tendency, type Tendency } from '../../../../clock/latency/tendency';
import type { DeviceAndHabit } from '../../../../clock/latency/tap-estimate';
import { dayText } from '../../../figures/day-text';
import { offsetText } from '../../../figures/format';

const HOW: Readonly<Record<OffsetMethod, string>> = {
  microphone: 'measured by microphone',
  'by hand': 'set by hand',
  'from playing': 'taken from playing, your habit included,',
};

/** How and when an offset was found. @example howWords({ method: 'by hand', measuredAt: 'today' }) // => 'set by hand on today' */
export const howWords = ({ method, measuredAt }: Pick<RigProfile, 'method' | 'measuredAt'>) =>
  `${HOW[method]} on ${dayText(measuredAt)}`;

/** An interval with signs. @example rangeWords(-2.04, 3) // => '−2.0 to +3.0 ms' */
export const rangeWords = (lowerMs: number, upperMs: number): string =>
  `${offsetText(lowerMs, 1)} to ${offsetText(upperMs, 1)} ms`;

/** The offset in force, in one line. @example offsetLine(undefined) // => 'Offset of this rig: not measured yet, so figures include your rig’s delay.' */
export const offsetLine = (profile: RigProfile | undefined): string =>
  profile
    ? `Offset of this rig: ${offsetText(profile.deviceOffsetMs)} ms, ${howWords(profile)}.`
    : 'Offset of this rig: not measured yet, so figures include your rig’s delay.';

/** What the rig is made of. @example rigLine({ outputLabel: '', sampleRate: 48000, port: 'Kit' }) // => 'the sound output in use (the browser tells no name) at 48 kHz, strokes from Kit' */
export const rigLine = ({ outputLabel, sampleRate, port }: Rig): string =>
  `${outputLabel || 'the sound output in use (the browser tells no name)'} at ${sampleRate / 1000} kHz, ${port === '' ? 'no MIDI port yet' : `strokes from ${port}`}`;

/**
 * The player's own part of what was played, when the device's part comes from something else than
 * playing; undefined otherwise.
 */
export function tendencyOf(
  played: Pick<DeviceAndHabit, 'deviceAndHabitMs' | 'lowerMs' | 'upperMs'>,
  profile: RigProfile | undefined,
): Tendency | undefined {
  if (!profile || profile.method === 'from playing') return undefined;
  const [lower, upper] = profile.intervalMs ?? [0, 0];
  return tendency(played, {
    deviceOffsetMs: profile.deviceOffsetMs,
    halfWidthMs: (upper - lower) / 2,
  });
}
