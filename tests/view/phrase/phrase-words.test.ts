import { describe, expect, it } from 'vitest';
import { parseMeter } from '../../../src/time/meter';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { changeWords } from '../../../src/phrase/model/change-words';
import { covers } from '../../../src/phrase/layers/covers';
import { phraseLine } from '../../../src/view/phrase/phrase-line';
import { subdivisionWord } from '../../../src/phrase/model/subdivision-word';

function phrase(file: object): Phrase {
  const parsed = parsePhrase(
    JSON.stringify({
      title: 'Slipway',
      meter: '4/4',
      tempoBpm: 90,
      subdivision: 4,
      grouping: 'R L L R K',
      cycle: 20,
      ...file,
    }),
  );
  if (!parsed.ok) throw new Error(parsed.errors[0]?.message);
  return parsed.value;
}

describe('a phrase in words', () => {
  it('tells subdivision, cycle and where it meets the bar line', () => {
    const five = phrase({ layers: [{ name: 'Sticking' }] });
    // 20 sixteenths against a bar of 16: lcm 80 = 5 bars.
    expect(phraseLine(five, 1)).toBe(
      'sixteenths · cycle of 20 over 4/4 · meets the bar line after 5 bars',
    );
    const three = phrase({ subdivision: 3, cycle: 6, layers: [{ name: 'Sticking' }] });
    expect(phraseLine(three, 1)).toBe(
      'eighth triplets · cycle of 6 over 4/4 · meets the bar line every bar',
    );
  });

  // Note values of parts of a beat: common practice, no source.
  it.each([
    ['4/4', 2, 'eighths'],
    ['4/4', 5, 'quintuplets'],
    ['4/4', 11, '11 to the beat'],
    ['6/8', 3, 'eighths'],
    ['12/8', 6, 'sixteenths'],
    ['7/8', 1, 'eighths'],
    ['7/8', 2, 'sixteenths'],
    ['3/8', 2, 'sixteenths'],
    ['5/16', 1, 'sixteenths'],
    ['9/16', 3, '3 to the beat'],
  ])('in %s a subdivision of %i is called %s', (meter, subdivision, word) => {
    expect(subdivisionWord(parseMeter(meter)!, subdivision)).toBe(word);
  });

  it('tells added strokes of one limb on one voice together', () => {
    const add = [
      { position: 1, limb: 'F' },
      { position: 4, limb: 'F' },
      { position: 4, limb: 'R', voice: 'ride bell' },
      { position: 7, limb: 'F' },
    ];
    const [layer] = phrase({
      grouping: 'L - L - L - L -',
      cycle: 8,
      layers: [{ name: 'Foot', changes: [{ add }] }],
    }).layers;
    expect(changeWords(layer!.changes[0]!)).toBe(
      'add F at positions 1, 4, 7; add R on ride bell at position 4',
    );
  });

  it('tells every kind of change', () => {
    const changed = phrase({
      layers: [
        {
          name: 'All kinds',
          changes: [
            { where: { limb: 'L', not: { nth: [4, 8] } }, set: { level: 'ghost' } },
            { where: { positions: [4] }, set: { voice: 'floor tom', grace: 'flam' } },
            { where: { beats: ['2 1/2'] }, set: { silent: true } },
            { where: { limb: 'R', every: { partials: 7, at: [1, 4] } }, set: { voice: 'crash' } },
            { accentEvery: 4 },
            { pickup: [{ partialsBefore: 2, limb: 'R' }] },
            { displace: -1 },
            { swing: '2:1' },
          ],
        },
      ],
    });
    expect(changed.layers[0]!.changes.map(changeWords)).toEqual([
      'left hand, not strokes 4, 8: as ghosts',
      'position 4: on floor tom, as flams',
      'beat 2 1/2: silent',
      'right hand, partials 1, 4 of every 7: on crash',
      'accent every 4 partials from partial 1 on',
      'pickup before the first downbeat: R 2 partials ahead',
      'the cycle starts 1 partial earlier',
      'off-beat eighths swung 2:1',
    ]);
  });

  it('tells what a phrase gives to practise', () => {
    const rich = phrase({
      layers: [
        { name: 'Sticking' },
        { name: 'Accents', changes: [{ where: { positions: [1] }, set: { level: 'accent' } }] },
        {
          name: 'Tom and flam',
          changes: [{ where: { positions: [4] }, set: { voice: 'floor tom', grace: 'flam' } }],
        },
        { name: 'Pickup', changes: [{ pickup: [{ partialsBefore: 1, limb: 'L' }] }] },
      ],
    });
    expect(covers(rich)).toEqual(['grouping of 5', 'accents', 'flams', 'toms', 'pickup']);
  });
});
