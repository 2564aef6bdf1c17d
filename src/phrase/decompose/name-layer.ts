import type { Change } from '../model/phrase';
import type { Voice } from '../model/voice';
import { capital } from '../../words/words';

const FAMILIES: Readonly<Partial<Record<Voice, string>>> = {
  'high tom': 'Toms',
  'mid tom': 'Toms',
  'floor tom': 'Toms',
  'hi-hat closed': 'Hi-hat',
  'hi-hat open': 'Hi-hat',
  'hi-hat pedal': 'Hi-hat',
  'hi-hat foot splash': 'Hi-hat',
  ride: 'Ride',
  'ride bell': 'Ride',
  crash: 'Cymbals',
  splash: 'Cymbals',
  china: 'Cymbals',
};

/** What voices are told together as one idea. @example voiceFamily('mid tom') // => 'Toms' */
export const voiceFamily = (voice: Voice): string => FAMILIES[voice] ?? capital(voice);

/** Changes of voice in runs of one idea, each with its name. */
export function byFamily(changes: readonly Change[]): { name: string; changes: Change[] }[] {
  const runs: { name: string; changes: Change[] }[] = [];
  for (const change of changes) {
    if (change.kind !== 'set' || change.set.voice === undefined) continue;
    const name = voiceFamily(change.set.voice);
    const last = runs.at(-1);
    if (last?.name === name) last.changes.push(change);
    else runs.push({ name, changes: [change] });
  }
  return runs;
}
