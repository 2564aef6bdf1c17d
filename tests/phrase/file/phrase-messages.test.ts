import { describe, expect, it } from 'vitest';
import { placeWords } from '../../../src/phrase/model/place-words';
import { errorsOf, SOUND } from './broken-phrases';

const changed = (change: unknown) => ({
  ...SOUND,
  layers: [{ name: 'Sticking' }, { name: 'Second', changes: [change] }],
});
const ACCENT = { level: 'accent' };

describe('what is wrong with a phrase, in plain words', () => {
  it.each<[string, unknown, string]>([
    [
      'no title',
      { ...SOUND, title: ' ' },
      'Give the phrase a title, so that it can be found again.',
    ],
    [
      'a layer without a name',
      { ...SOUND, layers: [{ name: '' }] },
      'Give the layer a name, such as what it adds.',
    ],
    ['no grouping', { ...SOUND, grouping: '' }, 'Write the grouping, such as R L K.'],
    ['no meter', { ...SOUND, meter: '' }, 'Write the meter, such as 4/4.'],
    [
      'a long title',
      { ...SOUND, title: 'x'.repeat(130) },
      'This text has 130 letters; shorten it to 120.',
    ],
    [
      'a tempo that is too slow',
      { ...SOUND, tempoBpm: 20 },
      'The number 20 is not possible here; write one from 30 to 1200.',
    ],
    [
      'half a partial',
      { ...SOUND, cycle: 4.5 },
      'The number 4.5 is not whole; write a whole one from 1 to 512.',
    ],
    [
      'a meter that is none',
      { ...SOUND, meter: '4/2' },
      'The text "4/2" is not a meter; write one such as 4/4 or 7/8, with 1 to 32 over 4, 8 or 16.',
    ],
    [
      'a stroke that is none',
      { ...SOUND, grouping: 'R Q' },
      'Step 2 of the grouping, "Q", is not a stroke; write R or L for a hand, K for the bass drum, F for the hi-hat foot, - for a rest, R+K for two at once, lR for a flam, llR for a drag.',
    ],
    [
      'strokes run together',
      { ...SOUND, grouping: 'RLRK' },
      'Step 1 of the grouping, "RLRK", is several strokes; put spaces between them: R L R K.',
    ],
    [
      'a small letter',
      { ...SOUND, grouping: 'r L' },
      'Step 1 of the grouping, "r", has no capital letter; write R for the stroke, since small letters are grace notes ahead of one.',
    ],
    [
      'a position that is none',
      changed({ where: { positions: [9] }, set: ACCENT }),
      'There is no position 9 in a cycle of 4 partials; choose one from 1 to 4.',
    ],
    [
      'a stroke that the limb has not',
      changed({ where: { limb: 'F', nth: [1] }, set: ACCENT }),
      'Stroke 1 is asked for, and the left foot has none in the cycle; choose other notes.',
    ],
    [
      'a beat that is none',
      changed({ where: { beats: ['5'] }, set: ACCENT }),
      'There is no beat 5 in a bar of 4/4; choose one before 5.',
    ],
    [
      'nothing given',
      changed({ where: {}, set: {} }),
      'Nothing is said of what the notes get; choose a voice, a level, a limb, silence or grace notes.',
    ],
    [
      'no note found',
      changed({ where: { limb: 'F' }, set: ACCENT }),
      'This change meets no note of the phrase as it is by then; choose other notes, or remove the change.',
    ],
    [
      'a limb asked twice',
      changed({ add: [{ position: 1, limb: 'R' }] }),
      'The right hand is asked for two strokes at once on position 1; give one of them to another limb, or take it out.',
    ],
    [
      'a text that is no JSON',
      '{\n  "title": "Ebb",\n}',
      'This is no phrase file in JSON, since it breaks at line 3, column 1; choose another file, or correct it there.',
    ],
    [
      'an empty file',
      '',
      'This is no phrase file in JSON, since it ends too soon; choose another file, or correct it there.',
    ],
    [
      'a missing key',
      { ...SOUND, layers: [{}] },
      'The key "name" is missing; add it with the name of the layer.',
    ],
    [
      'text for a number',
      { ...SOUND, tempoBpm: '90' },
      'Here stands "90"; write a number without quotes in its place.',
    ],
    [
      'an unknown key',
      { ...SOUND, titel: 'x' },
      'The key "titel" is not known here; write "title" if that is meant, or take it out.',
    ],
  ])('%s', (_, file, sentence) => {
    expect(errorsOf(file).map(({ message }) => message)).toEqual([sentence]);
  });
});

describe('placeWords', () => {
  it.each([
    ['', ''],
    ['title', '"title"'],
    ['grouping[1]', '"grouping"'],
    ['layers[1].name', 'layer 2, "name"'],
    [
      'layers[2].changes[0].where.not.positions[3]',
      'layer 3, change 1, "where", "not", "positions", entry 4',
    ],
    ['layers[0].changes[1].add[2].position', 'layer 1, change 2, "add", entry 3, "position"'],
  ])('%j is %j', (place, words) => {
    expect(placeWords(place)).toBe(words);
  });
});
