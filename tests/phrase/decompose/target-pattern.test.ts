import { expect, it } from 'vitest';
import { targetPattern } from '../../../src/phrase/decompose/target-pattern';
import { layeredPhrase, phraseOf } from '../phrase-of';
import { patternOf } from './taken-apart';

it('holds one cycle where every cycle is the same', () => {
  expect(patternOf(phraseOf({ grouping: 'R K', cycle: 3 }))).toEqual({
    meter: '4/4',
    subdivision: 4,
    cyclePartials: 3,
    tempoBpm: 90,
    notes: [
      { partial: 0, limb: 'R', voice: 'snare', level: 'tap', graces: [] },
      { partial: 1, limb: 'K', voice: 'bass drum', level: 'tap', graces: [] },
      { partial: 2, limb: 'R', voice: 'snare', level: 'tap', graces: [] },
    ],
    pickup: [],
  });
});

it('goes on until the bar is met again where a change looks at the meter', () => {
  const phrase = layeredPhrase({ grouping: 'R L K' }, [
    { where: { limb: 'R', beats: ['1'] }, set: { voice: 'crash' } },
  ]);
  const { cyclePartials, notes } = patternOf(phrase);
  expect(cyclePartials).toBe(48);
  expect(notes.filter((note) => note.voice === 'crash').map((note) => note.partial)).toEqual([0]);
});

it('tells subdivision, swing, displacement and pickup as the layer leaves them', () => {
  const phrase = layeredPhrase(
    {},
    [{ subdivision: 2 }, { swing: '4:2' }, { displace: -1 }],
    [{ pickup: [{ partialsBefore: 2, limb: 'L', level: 'ghost' }] }],
  );
  expect(patternOf(phrase)).toMatchObject({
    subdivision: 2,
    swing: '2:1',
    displace: -1,
    pickup: [{ partialsBefore: 2, limb: 'L', voice: 'snare', level: 'ghost' }],
  });
});

it('leaves out what rests, and tells how grace notes sound where they are not plain', () => {
  const phrase = layeredPhrase({ grouping: 'llR rlR lR K' }, [
    { where: { grace: true, positions: [1] }, set: { level: 'ghost' } },
    { where: { grace: true, limb: 'L', positions: [2] }, set: { silent: true } },
    { where: { grace: true, positions: [3] }, set: { silent: true } },
    { where: { limb: 'K' }, set: { silent: true } },
  ]);
  const ghost = { voice: 'snare', level: 'ghost' };
  const plain = { limb: 'R', voice: 'snare', level: 'tap' };
  expect(patternOf(phrase).notes).toEqual([
    { ...plain, partial: 0, graces: ['L', 'L'], graceSounds: [ghost, ghost] },
    {
      ...plain,
      partial: 1,
      graces: ['R', 'L'],
      graceSounds: [{ voice: 'snare', level: 'tap' }, null],
    },
    { ...plain, partial: 2, graces: [] },
  ]);
});

it('refuses notes that take too long to repeat', () => {
  const phrase = layeredPhrase({ grouping: 'R', cycle: 509 }, [
    { accentEvery: 7 },
    { accentEvery: 9 },
  ]);
  const answer = targetPattern(phrase, 2);
  expect(!answer.ok && answer.errors[0]!.code).toBe('PATTERN_TOO_LONG');
});
