import type { Change, Setting } from '../model/phrase';
import { capital } from '../../words/words';

/**
 * A name for a layer that does this and nothing else.
 *
 * @example changeName({ kind: 'set', where: { limb: 'R' }, set: { voice: 'floor tom' } }) // => 'Floor tom'
 */
export function changeName(change: Change): string {
  switch (change.kind) {
    case 'set':
      return settingName(change.set);
    case 'pickup':
      return 'Pickup';
    case 'accentEvery':
      return `Accent every ${change.accentEvery}`;
    case 'displace':
      return 'Displacement';
    case 'subdivision':
      return 'Subdivision';
    case 'swing':
      return 'Swing';
    case 'add':
      return 'Added strokes';
  }
}

function settingName({ voice, level, limb, silent, grace }: Setting): string {
  if (voice) return capital(voice);
  if (level) return `${capital(level)}s`;
  if (limb) return 'Sticking';
  if (grace) return grace === 'none' ? 'Without grace notes' : `${capital(grace)}s`;
  return silent ? 'Rests' : 'Sounds again';
}
