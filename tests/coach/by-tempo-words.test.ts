import { describe, expect, it } from 'vitest';
import { byTempoWords, type TempoLook } from '../../src/coach/by-tempo-words';

const LATE = 'Left hand 12 ms late, steadily.';
const even = (bpm: number): TempoLook => ({ bpm, code: 'even', finding: 'Even: …' });
const quiet = (bpm: number): TempoLook => ({
  bpm,
  code: 'nothing stands out',
  finding: 'Nothing stands out.',
});
const late = (bpm: number): TempoLook => ({ bpm, code: 'limb off', finding: LATE });
const open = (bpm: number): TempoLook => ({ bpm, code: 'undecided', finding: 'Not enough …' });

describe('what is told by tempo', () => {
  it.each<[string, TempoLook[], string | undefined]>([
    [
      'even, then apart',
      [late(96), even(92)],
      'Even to 92; at 96, left hand 12 ms late, steadily.',
    ],
    ['whatever the order', [even(88), late(96), even(92)], `Even to 92; at 96, l${LATE.slice(1)}`],
    [
      'the slowest at which it stands out',
      [late(104), late(96), even(92)],
      `Even to 92; at 96, l${LATE.slice(1)}`,
    ],
    [
      'nothing stood out, which is less than even',
      [late(96), even(92), quiet(88)],
      `Nothing stands out to 92; at 96, l${LATE.slice(1)}`,
    ],
    ['even at all', [even(96), even(84), even(92)], 'Even from 84 to 96.'],
    ['never shown to be even', [quiet(96), even(92)], undefined],
    ['one tempo', [even(96), even(96)], undefined],
    ['two that are the same as they are written', [late(96.04), even(96)], undefined],
    ['a tenth apart', [late(96.1), even(96)], `Even to 96; at 96.1, l${LATE.slice(1)}`],
    ['apart at every tempo', [late(96), late(92)], undefined],
    ['better when quicker', [even(96), late(92)], undefined],
    ['back and forth', [late(100), even(96), late(92), even(88)], undefined],
    ['undecided tells nothing', [open(96), even(92)], undefined],
    [
      'undecided does not stand between',
      [late(96), open(94), even(92)],
      `Even to 92; at 96, l${LATE.slice(1)}`,
    ],
    ['the last look at a tempo counts', [even(96), late(96), even(92)], 'Even from 92 to 96.'],
    [
      'unless it was undecided',
      [open(96), late(96), even(92)],
      `Even to 92; at 96, l${LATE.slice(1)}`,
    ],
    ['from before codes were kept', [{ bpm: 96, finding: LATE }, even(92)], undefined],
    ['nothing', [], undefined],
  ])('%s', (_, looks, words) => expect(byTempoWords(looks)).toBe(words));
});
