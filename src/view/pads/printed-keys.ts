import { KEY_STROKES } from '../../midi/key-strokes';
import type { Voice } from '../../phrase/model/voice';

export interface PrintedKeys {
  readonly tap: readonly string[];
  readonly ghost: readonly string[];
}

/** What is printed on a key of an English keyboard; its place is what counts. */
const printed = (code: string) => (code === 'Semicolon' ? ';' : code.replace('Key', ''));

/** The keys of every voice that has some. */
export const PRINTED_KEYS: ReadonlyMap<Voice, PrintedKeys> = byVoice();

function byVoice(): Map<Voice, PrintedKeys> {
  const keys = new Map<Voice, { tap: string[]; ghost: string[] }>();
  for (const [code, { voice, level }] of KEY_STROKES) {
    const of = keys.get(voice) ?? { tap: [], ghost: [] };
    of[level === 'ghost' ? 'ghost' : 'tap'].push(printed(code));
    keys.set(voice, of);
  }
  return keys;
}
