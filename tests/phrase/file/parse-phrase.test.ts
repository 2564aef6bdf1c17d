import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPhrase, parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { PHRASE_MESSAGES, phraseError } from '../../../src/phrase/model/phrase-error';
import { writePhrase } from '../../../src/phrase/file/write-phrase';
import { arbitraryPhrase, arbitraryPhraseFile } from '../arbitrary-phrase';
import { BROKEN_PHRASES, errorsOf, errorsOfAll, errorsOfBroken, SOUND } from './broken-phrases';
import { phraseFile } from '../phrase-of';

describe('parsePhrase', () => {
  it.each(BROKEN_PHRASES.map((broken) => [broken.code, broken.place, broken] as const))(
    '%s at %j',
    (code, place, broken) => {
      const errors = errorsOfBroken(broken);
      expect(errors.map((error) => [error.code, error.place])).toContainEqual([code, place]);
    },
  );

  it('every code of the catalogue is shown by a broken phrase, and none beside them', () => {
    const shown = new Set(errorsOfAll().map(({ code }) => code));
    expect([...shown].sort()).toEqual(Object.keys(PHRASE_MESSAGES).sort());
  });

  it('no message speaks as a program does of its data', () => {
    for (const { message } of errorsOfAll())
      expect(message).not.toMatch(/\bFound\b|\bexpected\b|make it fit|undefined|Infinity|\[object/);
  });

  it('every message is one sentence with nothing left to fill in', () => {
    for (const { message } of errorsOfAll()) {
      expect(message).toMatch(/^[A-Z][^{}]*\.$/s);
      expect(message).not.toMatch(/undefined|NaN|\[object/);
    }
  });

  it('names the layer from 1 and the place from 0', () => {
    const layers = [{ name: 'a' }, { name: 'b' }, { name: 'c', changes: [{ displace: 9 }] }];
    expect(errorsOf({ ...SOUND, layers })).toMatchObject([
      { code: 'DISPLACED_TOO_FAR', layer: 3, place: 'layers[2].changes[0].displace' },
    ]);
  });

  it('names a bad grouping with the other faults, where it stands in the file', () => {
    const file = { ...SOUND, meter: 'four', grouping: 'R X', cycle: 0, layers: [{ name: '' }] };
    expect(errorsOf(file).map(({ place }) => place)).toEqual([
      'meter',
      'grouping[1]',
      'cycle',
      'layers[0].name',
    ]);
  });

  it('suggests the nearest voice and the nearest key', () => {
    const set = { voice: 'flor tom' };
    const voice = errorsOf({ ...SOUND, layers: [{ name: 'a', changes: [{ where: {}, set }] }] });
    expect(voice[0]!.message).toContain('the nearest is "floor tom"');
    expect(errorsOf({ ...SOUND, titel: 'x' })[0]!.message).toContain('"title"');
  });

  it('every message and place fits on one line, whatever the file holds', () => {
    const files = [{ ...SOUND, 'a\nb': 1 }, { ...SOUND, ['k'.repeat(5000)]: 1 }, '{\n"a": x\n}'];
    for (const { message, place } of files.flatMap((file) => errorsOf(file))) {
      expect(`${place} ${message}`).not.toContain('\n');
      expect(`${place} ${message}`.length).toBeLessThan(400);
    }
  });

  const withChange = (change: unknown) => ({
    ...SOUND,
    layers: [{ name: 'a', changes: [change] }],
  });
  const LIST_FOR_BRACES =
    'Here stands a list; write keys with their values, in braces, in its place.';

  // A list has keys of its own, such as "at": what stands in a place of braces is told by what it is.
  it.each([
    ['where.every', { where: { every: [] }, set: { level: 'accent' } }],
    ['where.every', { where: { every: [1, 2] }, set: { level: 'accent' } }],
    ['where', { where: [], set: { level: 'accent' } }],
    ['pickup[0]', { pickup: [[]] }],
  ])('a list in place of %s is told once, as a list', (place, change) => {
    expect(errorsOf(withChange(change))).toMatchObject([
      { code: 'WRONG_TYPE', place: `layers[0].changes[0].${place}`, message: LIST_FOR_BRACES },
    ]);
  });

  it('names the first twenty faults of a shape, however many there are', () => {
    const wrong = (count: number) =>
      withChange({
        where: { positions: Array<number>(count).fill(0) },
        set: { level: 'accent' },
      });
    expect(errorsOf(wrong(19))).toHaveLength(19);
    expect(errorsOf(wrong(20))).toHaveLength(20);
    expect(errorsOf(wrong(21))).toHaveLength(20);
    expect(errorsOf(wrong(150_000))).toHaveLength(20);
  });

  it('counts a grouping that cannot be read among the twenty', () => {
    const placesOf = (count: number) => {
      const where = { positions: Array<number>(count).fill(0) };
      const file = withChange({ where, set: { level: 'accent' } });
      return errorsOf({ ...file, grouping: 'R Q X' }).map(({ place }) => place);
    };
    for (const [inShape, all] of [
      [17, 19],
      [18, 20],
      [19, 20],
      [20, 20],
    ] as const) {
      expect(placesOf(inShape)).toHaveLength(all);
      expect(placesOf(inShape).filter((place) => place.startsWith('grouping'))).toHaveLength(2);
    }
  });

  it('names the first twenty faults of what stands in the right shape', () => {
    const where = { positions: Array<number>(500).fill(2) };
    const change = { where, set: { level: 'accent' } };
    const layer = { name: 'a', changes: Array<unknown>(60).fill(change) };
    const file = { ...SOUND, grouping: 'R', layers: Array<unknown>(6).fill(layer) };
    expect(errorsOf(file).map(({ code }) => code)).toEqual(
      Array<string>(20).fill('POSITION_BEYOND_CYCLE'),
    );
  });

  it('says of a number that is too large for a number what it is', () => {
    const text = JSON.stringify({ ...SOUND, tempoBpm: 90 }).replace('90', '1e309');
    expect(errorsOf(text)).toMatchObject([
      { code: 'OUT_OF_RANGE', place: 'tempoBpm', message: expect.stringContaining('over 1e308') },
    ]);
  });

  it('reads a file with a byte order mark', () => {
    expect(parsePhrase(`\uFEFF${JSON.stringify(SOUND)}`).ok).toBe(true);
  });

  it('lawNoThrow: any JSON at all is a phrase or errors, never an exception', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(errorsOf(value).length).toBeGreaterThan(0);
      }),
    );
    fc.assert(
      fc.property(arbitraryPhraseFile(), fc.jsonValue(), fc.nat(40), (file, junk, at) => {
        let left = at;
        const spoiled: unknown = JSON.parse(JSON.stringify(file), (_, value: unknown) =>
          left-- === 0 ? junk : value,
        );
        const checked = checkPhrase(spoiled);
        expect(checked.ok || checked.errors.length > 0).toBe(true);
      }),
    );
  });
});

describe('writing a phrase', () => {
  it('lawRoundTrip: reading what was written gives the same phrase', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        expect(parsePhrase(writePhrase(phrase))).toEqual({ ok: true, value: phrase });
      }),
    );
  });

  it('lawSameFile: the data written is the data of its text', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        expect(JSON.parse(writePhrase(phrase))).toEqual(phraseFile(phrase));
      }),
    );
  });

  it('writes a file as it was, when it was written without what is only a default', () => {
    const file = {
      title: 'Lock Gate',
      meter: '4/4',
      tempoBpm: 96,
      subdivision: 4,
      grouping: 'R L K',
      cycle: 8,
      swing: '3:2',
      layers: [
        { name: 'Sticking' },
        {
          name: 'All there is',
          changes: [
            {
              where: {
                any: [{ limb: 'R', nth: [1] }, { beats: ['2 1/2', '3'] }],
                not: { level: 'ghost' },
              },
              set: { level: 'accent', grace: 'drag' },
            },
            { where: { grace: true }, set: { level: 'ghost' } },
            { pickup: [{ partialsBefore: 2, limb: 'L', voice: 'high tom' }] },
            { accentEvery: 3, from: 2, where: { limb: 'L' } },
            { displace: -1 },
            { subdivision: 6 },
            { swing: '2:1' },
            { add: [{ position: 8, limb: 'F', level: 'accent' }] },
          ],
        },
      ],
    };
    const checked = checkPhrase(file);
    expect(checked).toMatchObject({ ok: true });
    if (checked.ok) expect(phraseFile(checked.value)).toEqual(file);
  });
});

describe('phraseError', () => {
  it('fills the facts in, and misses none', () => {
    expect(phraseError('GRACE_ON_FOOT', 'layers[1].changes[0]', { where: 'position 3' })).toEqual({
      code: 'GRACE_ON_FOOT',
      layer: 2,
      place: 'layers[1].changes[0]',
      message:
        'The grace notes on position 3 fall to a foot, and only hands can play them; take them off, or use a hand.',
    });
    expect(() => phraseError('GRACE_ON_FOOT', '')).toThrow(RangeError);
  });
});
