import type { Voice } from '../phrase/model/voice';
import { isBuiltIn } from './built-in-kits';
import type { Kit, LevelBoundaries } from './kit';

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

/**
 * The kit with new boundaries on one pad zone.
 *
 * @example boundariesOf(withBoundaries(GENERAL_MIDI, 38, { ghostMax: 40, accentMin: 90 }), 38) // => { ghostMax: 40, accentMin: 90 }
 */
export const withBoundaries = (kit: Kit, note: number, boundaries: LevelBoundaries): Kit => ({
  ...kit,
  pads: kit.pads.map((pad) => (pad.note === note ? { ...pad, ...boundaries } : pad)),
});

/**
 * The kit that takes in what was learned: the player's own as it is; for one that comes with the app its copy for
 * `what`, the one that is there already, or a new one.
 *
 * @example ownCopy(GENERAL_MIDI, [], 'levels').title // => 'General MIDI percussion, my levels'
 */
export function ownCopy(kit: Kit, kits: readonly Kit[], what: string): Kit {
  if (!isBuiltIn(kit.title)) return kit;
  const title = `${kit.title}, my ${what}`;
  return kits.find((one) => one.title === title) ?? { ...kit, title };
}
