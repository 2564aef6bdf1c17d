import { profileFor, type Rig, type RigProfile } from './rig-profile';
import { decimalText } from '../../words/words';

/** Chosen, not measured: wired outputs report 10 to 50 ms, radio ones well over 100. */
const RADIO_LATENCY_MS = 80;
const RADIO_LABEL = /bluetooth|wireless|hands-?free/i;

/**
 * What to say when the rig is not the one of a moment ago, or has no profile; undefined when it has
 * one and nothing changed.
 *
 * @param before undefined at the start of a session.
 */
export function rigWarning(
  profiles: readonly RigProfile[],
  now: Rig,
  before?: Rig,
): string | undefined {
  const profile = profileFor(profiles, now);
  const change = before && changeOf(before, now);
  if (change && profile)
    return `${change}. Takes that begin from now on use its own offset of ${decimalText(profile.deviceOffsetMs, 1)} ms.`;
  if (change)
    return `${change}, and no offset is known for it: early and late cannot be trusted until it is measured.`;
  if (!profile)
    return 'No offset is known for this output and this MIDI port: early and late cannot be trusted until it is measured.';
  return undefined;
}

function changeOf(before: Rig, now: Rig): string | undefined {
  if (before.outputLabel !== now.outputLabel)
    return `The sound now comes from ${quoted(now.outputLabel)} and no longer from ${quoted(before.outputLabel)}`;
  if (before.sampleRate !== now.sampleRate)
    return `The output now runs at ${now.sampleRate} Hz and no longer at ${before.sampleRate} Hz`;
  if (before.port !== now.port)
    return `The strokes now come from ${quoted(now.port)} and no longer from ${quoted(before.port)}`;
  return undefined;
}

const quoted = (label: string): string => (label === '' ? 'an unnamed device' : `“${label}”`);

/**
 * Advice against sound by radio, when the output looks like it; undefined for a wired one. Figures:
 * the W3C media production workshop and Web Audio issue 1452 report 100 to 300 ms.
 *
 * @param outputLatencyMs as the browser reports it; 0 where it reports none.
 * @example radioAdvice('Built-in speakers', 24) // => undefined
 */
export function radioAdvice(outputLabel: string, outputLatencyMs: number): string | undefined {
  const named = RADIO_LABEL.test(outputLabel);
  if (!named && outputLatencyMs <= RADIO_LATENCY_MS) return undefined;
  const found = named
    ? 'This output looks like Bluetooth or another radio link'
    : `This output reports a delay of ${outputLatencyMs.toFixed(0)} ms`;
  return `${found}. Sound by Bluetooth comes 100 to 300 ms late, and by how much changes while you play, so no measured offset stays true; use a cable.`;
}
