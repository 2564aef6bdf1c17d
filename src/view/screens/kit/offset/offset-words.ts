import type {
  OffsetMethod,
  PlayedToClick,
  Rig,
  RigProfile,
} from '../../../../clock/latency/rig-profile';
import { tendency, type Tendency } from '../../../../clock/latency/tendency';
import { WARM_UP_STROKES, type DeviceAndHabit } from '../../../../clock/latency/tap-estimate';
import type { MicrophoneMeasurement } from '../../../../clock/latency/microphone/measure-offset';
import { countOf } from '../../../../words/words';
import type { MicrophoneParts, PlayedParts } from '../../../app-context';
import { dayText } from '../../../figures/day-text';
import { figureText, offsetText } from '../../../figures/format';

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

/** The offset in force, in one line. @example offsetLine(undefined) // => 'Offset of this rig: not measured yet, so early and late include what the rig adds.' */
export const offsetLine = (profile: RigProfile | undefined): string =>
  profile
    ? `Offset of this rig: ${offsetText(profile.deviceOffsetMs)} ms, ${howWords(profile)}.`
    : 'Offset of this rig: not measured yet, so early and late include what the rig adds.';

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

/** The rig's number and what it is for. */
export function rigWords(profile: RigProfile | undefined): string {
  if (!profile)
    return 'The rig’s number is not measured yet: nothing is subtracted, and every figure of early and late includes what the rig adds.';
  const range = profile.intervalMs
    ? `; with 95 % confidence ${rangeWords(...profile.intervalMs)}`
    : '';
  return `The rig’s number is ${howWords(profile)}${range}. It is subtracted from every offset of takes that begin from now on; takes already kept stay as they are.`;
}

/** The player's own number, or what is wanted to tell it. */
export function ownWords(
  profile: RigProfile | undefined,
  played: PlayedToClick | undefined,
): string {
  if (!profile)
    return 'Your own number is what is left of playing to the click when the rig’s is taken off.';
  if (profile.method === 'from playing')
    return 'Your own number cannot be told, because the rig’s was taken from your playing. Measure the rig by microphone to part the two.';
  const own = played && tendencyOf(played, profile);
  return own
    ? `${own.sentence} Played to the click on ${dayText(played.playedAt)}. It is yours to choose and is never subtracted.`
    : 'Play to the click below, and what is left after the rig’s number is your own.';
}

/** How measuring by microphone stands; nothing before it began. */
export function microphoneWords({
  phase,
  outcome,
  problem,
}: Pick<MicrophoneParts, 'phase' | 'outcome' | 'problem'>): string {
  if (phase === 'asking') return 'The browser asks whether this page may listen: allow it.';
  if (phase === 'recording') return 'Strike the pad in between the clicks.';
  if (phase === 'analysing') return 'Working it out.';
  if (outcome?.outcome === 'measured')
    return `The rig’s offset is ${offsetText(outcome.deviceOffsetMs, 1)} ms.`;
  return outcome?.sentence ?? problem ?? '';
}

/** What the kit has sent while the microphone listens. @example sentWords(1) // => '1 stroke came from the kit; 20 or more are wanted.' */
export const sentWords = (strokes: number): string =>
  `${countOf(strokes, 'stroke')} came from the kit; 20 or more are wanted.`;

/** How sure the number by microphone is. */
export const measuredWords = ({
  lowerMs,
  upperMs,
  strokes,
  clicks,
  spreadMs,
}: Omit<MicrophoneMeasurement, 'deviceOffsetMs' | 'peakDb'>): string =>
  `With 95 % confidence ${rangeWords(lowerMs, upperMs)}, from ${strokes} strokes and ${clicks} clicks. The kit’s time stamps scatter by ${figureText(spreadMs, 1)} ms against what was heard.`;

/** How playing to the click stands; nothing before it began. */
export function playingWords({
  phase,
  estimate,
  problem,
}: Pick<PlayedParts, 'phase' | 'estimate' | 'problem'>): string {
  if (phase === 'starting') return 'Starting the sound.';
  if (phase === 'playing') return 'Play one stroke to every click, on one pad.';
  if (estimate?.outcome === 'estimated')
    return `Rig and habit together: ${offsetText(estimate.deviceAndHabitMs, 1)} ms.`;
  return estimate?.sentence ?? problem ?? '';
}

/** How many strokes came to the click, and from which pad. @example strokesWords(23, 'ride') // => '23 strokes on ride. The first 4 do not count.' */
export const strokesWords = (strokes: number, pad: string | undefined): string =>
  `${countOf(strokes, 'stroke')}${pad === undefined ? ': strike a pad' : ` on ${pad}`}. The first ${WARM_UP_STROKES} do not count.`;

/** How sure the number from playing to the click is, and what was left out. */
export function sureWords({ lowerMs, upperMs, strokes, spreadMs, warmUp, wild }: DeviceAndHabit) {
  const far = wild > 0 ? `, and ${wild} far from the rest` : '';
  return `With 95 % confidence ${rangeWords(lowerMs, upperMs)}, from ${strokes} strokes that scatter by ${figureText(spreadMs, 0)} ms. Left out: the first ${warmUp} as warm-up${far}.`;
}
