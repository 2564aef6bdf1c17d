import { expect, it } from 'vitest';
import { exerciseOf } from '../../../src/phrase/exercise/exercise';
import { leadingHand } from '../../../src/phrase/exercise/leading-hand';
import { phraseOfTake } from '../../../src/view/screens/log/phrase-of-take';
import { layeredPhrase, phraseOf } from '../../phrase/phrase-of';

const phrase = layeredPhrase({ title: 'Slip', grouping: 'R L K' }, [
  { where: { limb: 'R' }, set: { level: 'accent' } },
]);
const entry = { id: 'slip', phrase, text: '', own: true };
const other = {
  id: 'slope',
  phrase: phraseOf({ title: 'Slope', grouping: 'R L K' }),
  text: '',
  own: true,
};

it('is the phrase as it was played, led by either hand', () => {
  expect(phraseOfTake([other, entry], phrase, 2, 'as written')).toEqual({
    entry,
    leadingHand: 'as written',
  });
  expect(phraseOfTake([other, entry], leadingHand(phrase), 2, 'as written')).toEqual({
    entry,
    leadingHand: 'changed',
  });
});

it('is led as the player is led where that is all the same', () => {
  const feet = { ...entry, phrase: phraseOf({ title: 'Feet', grouping: 'K F' }) };
  expect(phraseOfTake([feet], feet.phrase, 1, 'changed')?.leadingHand).toBe('changed');
});

it('is none where the notes are others by now, nor of an exercise', () => {
  const changed = { ...entry, phrase: layeredPhrase({ title: 'Slip', grouping: 'R L K' }, []) };
  expect(phraseOfTake([changed], phrase, 2, 'as written')).toBeUndefined();
  const part = exerciseOf(phrase, 2, { part: { limb: 'K' } });
  expect(part.ok && phraseOfTake([entry], part.value.phrase, 1, 'as written')).toBeUndefined();
});
