import { LATE, within } from './deadline';

/** Chosen, not measured: it is a label, and what it is for goes on without it. */
const ANSWERS_WITHIN_MS = 1000;

/**
 * The label of the sound output in use, as far as the browser tells: most tell none before the page may
 * listen to a microphone, and some never. Empty where it is not told, or not in a second.
 *
 * @param devices null where the browser has none.
 */
export async function outputLabel(
  devices: Pick<MediaDevices, 'enumerateDevices'> | null,
): Promise<string> {
  const asked = Promise.resolve(devices?.enumerateDevices().catch(() => []));
  const answer = await within(ANSWERS_WITHIN_MS, asked);
  const all = answer === LATE ? [] : (answer ?? []);
  const outputs = all.filter(({ kind }) => kind === 'audiooutput');
  const used = outputs.find(({ deviceId }) => deviceId === 'default') ?? outputs[0];
  return used?.label ?? '';
}
