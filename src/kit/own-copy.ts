import { isBuiltIn } from './built-in-kits';
import type { Kit } from './kit';

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
