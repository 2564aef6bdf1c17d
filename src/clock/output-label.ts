/**
 * The label of the sound output in use, as far as the browser tells: most tell none before the page may
 * listen to a microphone, and some never. Empty where it is not told.
 *
 * @param devices null where the browser has none.
 */
export async function outputLabel(
  devices: Pick<MediaDevices, 'enumerateDevices'> | null,
): Promise<string> {
  const all = (await devices?.enumerateDevices().catch(() => [])) ?? [];
  const outputs = all.filter(({ kind }) => kind === 'audiooutput');
  const used = outputs.find(({ deviceId }) => deviceId === 'default') ?? outputs[0];
  return used?.label ?? '';
}
