import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import type { PhraseFile } from '../../src/phrase/model/phrase-file';
import type { Phrase } from '../../src/phrase/model/phrase';

/** All limbs, two to a partial, with ghosts and accents: 8 strokes a beat. */
export const TWO_LAMPS: PhraseFile = {
  title: 'Two lamps',
  meter: '4/4',
  tempoBpm: 120,
  subdivision: 4,
  grouping: 'R+K L+F R+F L+K',
  layers: [
    { name: 'Sticking', changes: [{ where: { limb: 'R' }, set: { voice: 'ride' } }] },
    {
      name: 'Dynamics',
      changes: [
        { where: { limb: 'L' }, set: { level: 'ghost' } },
        { where: { limb: 'L', positions: [4] }, set: { level: 'accent' } },
      ],
    },
  ],
};

/** Four limbs on every sixteenth at the fastest tempo there is, the hands going round six voices: 80 strokes a second. */
export const STORM_TIDE: PhraseFile = {
  title: 'Storm tide',
  meter: '4/4',
  tempoBpm: 300,
  subdivision: 4,
  grouping: 'R+L+K+F',
  cycle: 12,
  layers: [
    {
      name: 'Round the kit',
      changes: [
        { where: { limb: 'R', positions: [1, 4, 7, 10] }, set: { voice: 'ride' } },
        { where: { limb: 'R', positions: [2, 5, 8, 11] }, set: { voice: 'crash' } },
        { where: { limb: 'R', positions: [3, 6, 9, 12] }, set: { voice: 'hi-hat closed' } },
        { where: { limb: 'L', positions: [2, 5, 8, 11] }, set: { voice: 'high tom' } },
        { where: { limb: 'L', positions: [3, 6, 9, 12] }, set: { voice: 'floor tom' } },
      ],
    },
  ],
};

/** One drum, single strokes, too fast to be even. */
export const LOOSE_PLANK: PhraseFile = {
  title: 'Loose plank',
  meter: '4/4',
  tempoBpm: 300,
  subdivision: 4,
  grouping: 'R L',
  layers: [{ name: 'Sticking' }],
};

/** A five-note grouping over a cycle of five beats: every partial struck, 120 cycles in five minutes. */
export const SLACK_WATER: PhraseFile = {
  title: 'Slack water',
  meter: '4/4',
  tempoBpm: 120,
  subdivision: 4,
  grouping: 'R L L R K',
  cycle: 20,
  layers: [
    { name: 'Sticking' },
    {
      name: 'Toms',
      changes: [{ where: { limb: 'R', positions: [9, 14] }, set: { voice: 'floor tom' } }],
    },
    {
      name: 'Dynamics',
      changes: [
        { where: { positions: [1, 9, 16] }, set: { level: 'accent' } },
        { where: { limb: 'L' }, set: { level: 'ghost' } },
      ],
    },
  ],
};

export function benchPhrase(file: PhraseFile): Phrase {
  const parsed = checkPhrase(file);
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  return parsed.value;
}
