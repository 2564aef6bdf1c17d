import type { Level } from '../phrase/model/level';
import { LIMBS, limbName } from '../phrase/model/limb';
import { VOICES } from '../phrase/model/voice';
import { capital } from '../words/words';

/** What stands before a level as it is: what is struck, and with what. */
const STRUCK_WITH: ReadonlySet<string> = new Set([...VOICES, ...LIMBS.map(limbName)]);

/** "Snare ghosts", "Ghosts", "Ghosts, position 3,". */
export function levelWords(level: Level, name: string | undefined): string {
  if (name === undefined) return `${capital(level)}s`;
  return STRUCK_WITH.has(name) ? `${capital(name)} ${level}s` : `${capital(level)}s, ${name},`;
}
