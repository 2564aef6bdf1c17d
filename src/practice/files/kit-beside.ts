import { isBuiltIn } from '../../kit/built-in-kits';
import type { Kit } from '../../kit/kit';
import { writeKit } from '../../kit/parse-kit';
import { another, freeTitle } from '../../phrase/model/free-title';

/** A kit that is opened, beside what is here under its title. */
export interface KitBeside {
  readonly kit: Kit;
  /** The very kit, another of the player's own, another that comes with the app, or none. */
  readonly here: 'same' | 'own' | 'ours' | undefined;
  /** What it is called when it is kept beside what is here. */
  readonly freeTitle: string;
}

/** Room for an ending in the 100 letters that a kit's title has at most. */
const LONGEST_BEFORE_ENDING = 90;

export function kitBeside(kit: Kit, kits: readonly Kit[]): KitBeside {
  const there = kits.find(({ title }) => title === kit.title);
  const titles = kits.map(({ title }) => title);
  if (!there) return { kit, here: undefined, freeTitle: kit.title };
  const isSame = writeKit(there) === writeKit(kit);
  return {
    kit,
    here: isSame ? 'same' : isBuiltIn(kit.title) ? 'ours' : 'own',
    freeTitle: freeTitle(kit.title.slice(0, LONGEST_BEFORE_ENDING), another, titles),
  };
}
