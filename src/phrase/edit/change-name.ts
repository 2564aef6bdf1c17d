import type { ChangeFile, SettingFile } from '../model/phrase-file';
import { capital } from '../model/words';

/**
 * A name for a layer that does this and nothing else.
 *
 * @example changeName({ where: { limb: 'R' }, set: { voice: 'floor tom' } }) // => 'Floor tom'
 */
export function changeName(change: ChangeFile): string {
  if ('set' in change) return settingName(change.set);
  if ('pickup' in change) return 'Pickup';
  if ('accentEvery' in change) return `Accent every ${change.accentEvery}`;
  if ('displace' in change) return 'Displacement';
  if ('subdivision' in change) return 'Subdivision';
  return 'swing' in change ? 'Swing' : 'Added strokes';
}

function settingName({ voice, level, limb, silent, grace }: SettingFile): string {
  if (voice) return capital(voice);
  if (level) return `${capital(level)}s`;
  if (limb) return 'Sticking';
  if (grace) return grace === 'none' ? 'Without grace notes' : `${capital(grace)}s`;
  return silent ? 'Rests' : 'Sounding again';
}
