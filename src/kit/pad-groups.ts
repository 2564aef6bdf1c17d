import type { Kit } from './kit';

/** The groups of a kit as numbers, in order of first mention. */
export interface PadGroups {
  readonly names: readonly string[];
  /** Group number by MIDI note number; -1 for a note without a pad. */
  readonly ofNote: Int16Array;
}

/** @example [...padGroups({ pads: [{ note: 1, group: 'ride' }] }).ofNote.slice(0, 2)] // => [-1, 0] */
export function padGroups(kit: {
  readonly pads: readonly Pick<Kit['pads'][number], 'note' | 'group'>[];
}): PadGroups {
  const names: string[] = [];
  const ofNote = new Int16Array(128).fill(-1);
  for (const { note, group } of kit.pads) {
    if (!names.includes(group)) names.push(group);
    ofNote[note] = names.indexOf(group);
  }
  return { names, ofNote };
}
