import type { Voice } from '../phrase/model/voice';
import type { Kit } from './kit';

/**
 * The kit with a pad more, for a note it did not know: of the voice's group, so that nothing is
 * taken for crosstalk between the new pad and its neighbours of the same voice. A note the kit
 * knows already keeps its pad.
 *
 * @example withPad({ title: 'Boathouse', pads: [], opening: { controller: 4, highMeans: 'closed', openFrom: 0.5 } }, 91, 'cowbell', 'Mine').pads // => [{ note: 91, name: 'cowbell, note 91', voice: 'cowbell', group: 'cowbell' }]
 */
export function withPad(kit: Kit, note: number, voice: Voice, title = kit.title): Kit {
  if (kit.pads.some((pad) => pad.note === note)) return { ...kit, title };
  const group = kit.pads.find((pad) => pad.voice === voice)?.group ?? voice;
  const pad = { note, name: `${voice}, note ${note}`, voice, group };
  return { ...kit, title, pads: [...kit.pads, pad] };
}
