import metadata from '@vexflow-fonts/leland/metadata.json';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPhrase } from '../../../src/phrase/file/parse-phrase';
import type { PhraseFile } from '../../../src/phrase/model/phrase-file';
import { VOICES, type Voice } from '../../../src/phrase/model/voice';
import { parseMeter } from '../../../src/time/meter';
import { GLYPH } from '../../../src/notation/notehead';
import { beamGroup } from '../../../src/notation/beams';
import { breakLines } from '../../../src/notation/break-lines';
import { farSide, HEAD_HALF, STEM_FROM } from '../../../src/notation/chord';
import { noteZones } from '../../../src/view/score/note-zones';
import { scoreContent } from '../../../src/notation/score-columns';
import { scoreLayout } from '../../../src/view/score/score-layout';
import { scoreLines } from '../../../src/notation/score-lines';
import { STAFF_PLACES } from '../../../src/notation/staff-places';
import { partialValue, writtenValues } from '../../../src/notation/written-values';

const NAMES: Readonly<Record<string, string>> = {
  '-1': 'half',
  0: 'quarter',
  1: '8th',
  2: '16th',
  3: '32nd',
};
const meterOf = (text: string) => parseMeter(text)!;
const phraseOf = (file: Partial<PhraseFile>) => {
  const checked = checkPhrase({
    title: 'Tide',
    meter: '4/4',
    tempoBpm: 60,
    subdivision: 4,
    grouping: 'R L R L K',
    layers: [{ name: 'Sticking' }],
    ...file,
  });
  if (!checked.ok) throw new Error(checked.errors.map(({ message }) => message).join('; '));
  return checked.value;
};
/** A beat as it is written: values, with a dot where dotted and brackets round rests. */
const written = (
  meter: string,
  subdivision: number,
  onsets: number[],
  from = 0,
  to = subdivision,
) =>
  writtenValues(meterOf(meter), subdivision, onsets, from, to)
    .map(({ flags, dotted, isRest }) => {
      const name = `${NAMES[flags]}${dotted ? '.' : ''}`;
      return isRest ? `(${name})` : name;
    })
    .join(' ');

// LilyPond `ly/drumpitch-init.ly`, `weinberg-drums-style`, after Weinberg 1994: standards.md section 8.
it.each<[Voice, number]>([
  ['bass drum', -3],
  ['snare', 1],
  ['side stick', 1],
  ['high tom', 4],
  ['mid tom', 2],
  ['floor tom', -1],
  ['cowbell', 3],
  ['hi-hat closed', 5],
  ['hi-hat open', 5],
  ['hi-hat pedal', -5],
  ['hi-hat foot splash', -5],
  ['ride', 4],
  ['ride bell', 4],
  ['crash', 6],
  ['china', 7],
])('%s stands %i half spaces above the middle line, as Weinberg has it', (voice, place) => {
  expect(STAFF_PLACES[voice]).toBe(place);
});

it('the drumset stands on the staff in the order of the lane, top first, but for the bell beside the ride', () => {
  const kit = VOICES.filter((voice) => /crash|hi-hat|ride|tom|snare|bass/.test(voice));
  const places = kit.map((voice) => STAFF_PLACES[voice]);
  expect(places).toEqual([...places].sort((a, b) => b - a));
});

describe('partials as note values', () => {
  // standards.md 7.3, "n:m with m the nearest lower power of two": 3:2, 5:4, 6:4, 7:4, 9:8, 11:8. A beat of
  // m sixteenths is written in sixteenths for m = 4, of m thirty-seconds for m = 8.
  it.each([
    [3, '8th'],
    [5, '16th'],
    [6, '16th'],
    [7, '16th'],
    [9, '32nd'],
    [11, '32nd'],
  ])('%i to a quarter are a tuplet of %ss', (subdivision, name) => {
    const { flags, tuplet } = partialValue(meterOf('4/4'), subdivision);
    expect([NAMES[flags], tuplet]).toEqual([name, subdivision]);
  });

  it.each([
    ['4/4', 1, 'quarter'],
    ['4/4', 2, '8th'],
    ['4/4', 4, '16th'],
    ['4/4', 8, '32nd'],
    ['7/8', 1, '8th'],
    ['7/8', 2, '16th'],
    ['6/8', 3, '8th'],
    ['6/8', 6, '16th'],
    ['12/8', 12, '32nd'],
  ])('in %s %i to the beat are plain %ss', (meter, subdivision, name) => {
    const { flags, tuplet } = partialValue(meterOf(meter), subdivision);
    expect([NAMES[flags], tuplet]).toEqual([name, undefined]);
  });

  // Read off by hand.
  it.each([
    ['4/4', 4, [0, 1, 2, 3], '16th 16th 16th 16th'],
    ['4/4', 4, [0, 2], '8th 8th'],
    ['4/4', 4, [0, 3], '8th. 16th'],
    ['4/4', 4, [1], '(16th) 8th.'],
    ['4/4', 4, [3], '(16th) (8th) 16th'],
    ['4/4', 4, [0], 'quarter'],
    ['4/4', 4, [], '(quarter)'],
    ['4/4', 3, [0, 2], 'quarter 8th'],
    ['4/4', 3, [0], 'quarter'],
    ['4/4', 5, [0], 'quarter'],
    ['4/4', 7, [0, 5], 'quarter (16th) 8th'],
    ['6/8', 3, [0], 'quarter.'],
    ['6/8', 6, [0, 3, 5], '8th. 8th 16th'],
    ['6/8', 3, [], '(quarter.)'],
  ])('in %s, %i to the beat, struck at %j: %s', (meter, subdivision, onsets, expected) => {
    expect(written(meter, subdivision, onsets)).toBe(expected);
  });

  it('part of a beat is written as far as it goes', () => {
    expect(written('4/4', 4, [0, 1], 0, 3)).toBe('16th 8th');
    expect(written('4/4', 4, [], 2, 4)).toBe('(8th)');
  });

  it('lawFillsTheBeat: the values take up the beat without gap or overlap, one note at each stroke', () => {
    const cases = fc
      .integer({ min: 1, max: 12 })
      .chain((n) => fc.tuple(fc.constant(n), fc.subarray([...Array(n).keys()])));
    fc.assert(
      fc.property(cases, fc.constantFrom('4/4', '7/8', '6/8'), ([n, onsets], meter) => {
        const values = writtenValues(meterOf(meter), n, onsets, 0, n);
        let at = 0;
        for (const { from, partials } of values) {
          expect(from).toBe(at);
          at += partials;
        }
        expect(at).toBe(n);
        expect(values.filter(({ isRest }) => !isRest).map(({ from }) => from)).toEqual(onsets);
        for (const { flags } of values) expect(Number.isInteger(flags)).toBe(true);
      }),
    );
  });
});

describe('beams', () => {
  const beams = (subdivision: number, onsets: number[]) =>
    beamGroup(writtenValues(meterOf('4/4'), subdivision, onsets, 0, subdivision)).beams.map(
      ({ level, from, to, stub }) => `${level}: ${from}-${to}${stub ? ` ${stub}` : ''}`,
    );

  it.each([
    [4, [0, 1, 2, 3], ['1: 0-3', '2: 0-3']],
    [4, [0, 1, 3], ['1: 0-2', '2: 0-0 right', '2: 2-2 left']],
    [4, [0, 3], ['1: 0-1', '2: 1-1 left']],
    [4, [0], []],
    [3, [0, 1, 2], ['1: 0-2']],
    [3, [0, 2], []],
  ])('%i to the beat, struck at %j: %j', (subdivision, onsets, expected) => {
    expect(beams(subdivision, onsets)).toEqual(expected);
  });
});

describe('lines', () => {
  const columns = (partials: number, start = 0, subdivision = 4, barPartials = 16) =>
    Array.from({ length: partials }, (_, i) => ({
      partial: start + i,
      onBeat: (start + i) % subdivision === 0,
      onBar: (start + i) % barPartials === 0,
    }));
  const lengths = (spans: readonly { from: number; to: number }[]) =>
    spans.map(({ from, to }) => to - from);

  it.each([
    ['all in one', 20, 24, [20]],
    ['whole bars', 20, 16, [16, 4]],
    ['bars that do not fit, evenly by beats', 16, 12, [8, 8]],
    ['two bars a line', 64, 40, [32, 32]],
    ['beats that do not fit', 4, 3, [2, 2]],
  ])('%s', (_, partials, capacity, expected) => {
    expect(lengths(breakLines(columns(partials), capacity))).toEqual(expected);
  });

  it('lawEveryColumnOnce: lines hold every column once, in order, and never more than fit', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 512 }),
        fc.nat(30),
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 12 }),
        (partials, start, capacity, subdivision) => {
          const spans = breakLines(
            columns(partials, start, subdivision, subdivision * 4),
            capacity,
          );
          expect(spans[0]!.from).toBe(0);
          expect(spans.at(-1)!.to).toBe(partials);
          spans.forEach(({ from, to }, i) => {
            if (i > 0) expect(from).toBe(spans[i - 1]!.to);
            expect(to - from).toBeGreaterThan(0);
            expect(to - from).toBeLessThanOrEqual(capacity);
          });
        },
      ),
    );
  });

  it('a tuplet has its number once a beat, with a bracket where no beam holds it', () => {
    const content = scoreContent(phraseOf({ subdivision: 3, grouping: 'R L L R - L' }), 1);
    const { tuplets } = scoreLines(content, 24)[0]!;
    expect(tuplets).toEqual([
      { number: 3, fromColumn: 0, toColumn: 2, bracket: false },
      { number: 3, fromColumn: 3, toColumn: 5, bracket: true },
    ]);
  });
});

describe('what stands where', () => {
  it('a cycle begins where it falls in its bar, after its pickup', () => {
    const phrase = phraseOf({
      layers: [
        { name: 'Late', changes: [{ displace: 3 }] },
        { name: 'Pickup', changes: [{ pickup: [{ partialsBefore: 2, limb: 'R' }] }] },
      ],
    });
    const { columns, pickupColumns } = scoreContent(phrase, 2);
    expect(pickupColumns).toBe(2);
    expect(columns.map(({ position, count }) => `${position} ${count}`)).toEqual([
      '-2 &',
      '-1 a',
      '1 a',
      '2 2',
      '3 e',
      '4 &',
      '5 a',
    ]);
    expect(columns[0]!.notes.map(({ key }) => key)).toEqual(['-2/R']);
  });

  it('a cycle displaced ahead of bar 1 is shown whole', () => {
    const { columns } = scoreContent(
      phraseOf({ layers: [{ name: 'Early', changes: [{ displace: -2 }] }] }),
      1,
    );
    expect(columns.map(({ notes }) => notes[0]!.key).join(' ')).toBe('1/R 2/L 3/R 4/L 5/K');
    expect(columns[0]!.count).toBe('a');
  });

  it('grace notes belong to the hand they lead to', () => {
    const { columns } = scoreContent(phraseOf({ grouping: 'lR+K llR' }), 1);
    expect(columns.map(({ notes }) => notes.map(({ sticking }) => sticking))).toEqual([
      ['lR', 'K'],
      ['llR'],
    ]);
    expect(columns[1]!.notes[0]!.name).toBe('position 2, right hand, snare, tap, with a drag');
  });

  it('heads too near each other stand on either side of the stem', () => {
    expect(farSide([6, 5, 4])).toEqual([false, true, false]);
    expect(farSide([1, 1])).toEqual([true, false]);
    expect(farSide([5, 1, -3])).toEqual([false, false, false]);
  });

  // The font's published metadata, staff spaces.
  it('stems stand where the font has its anchors', () => {
    const anchors = metadata.glyphsWithAnchors as unknown as Record<
      string,
      { stemUpSE: [number, number] }
    >;
    const heads = [
      [GLYPH.head, 'noteheadBlack'],
      [GLYPH.x, 'noteheadXBlack'],
      [GLYPH.circleX, 'noteheadCircleX'],
      [GLYPH.diamond, 'noteheadDiamondBlack'],
      [GLYPH.triangle, 'noteheadTriangleUpBlack'],
    ] as const;
    for (const [glyph, name] of heads) {
      const [x, y] = anchors[name]!.stemUpSE;
      expect(STEM_FROM[glyph], name).toBe(y);
      expect(Math.abs(x / 2 - HEAD_HALF), name).toBeLessThan(0.05);
    }
  });

  it('lawFits: the last column ends within the width, and nothing is above or below its line', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 1600 }),
        fc.integer({ min: 1, max: 80 }),
        fc.boolean(),
        (width, cycle, interactive) => {
          const content = scoreContent(phraseOf({ cycle }), 1);
          const layout = scoreLayout({ content, width, interactive });
          for (const { from, to } of layout.lines)
            expect(layout.left + (to - from) * layout.slot).toBeLessThanOrEqual(width);
          expect(layout.letterY).toBeLessThan(layout.height);
          expect(layout.countY).toBeGreaterThan(0);
          // WCAG 2.2 SC 2.5.8: a target of at least 24 CSS pixels.
          if (interactive) expect(layout.slot).toBeGreaterThanOrEqual(24);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('a note of a column is touched round its head and on its letter, and no two overlap', () => {
    const layout = { middleY: 100, space: 10, beamY: 40, letterY: 150, letterLine: 26 };
    const zones = noteZones([{ place: 5 }, { place: 1 }, { place: -3 }], layout).flat();
    const sorted = [...zones].sort((a, b) => a.top - b.top);
    for (let i = 1; i < sorted.length; i++)
      expect(sorted[i]!.top).toBeGreaterThanOrEqual(sorted[i - 1]!.bottom);
    expect(noteZones([{ place: 1 }], layout)).toHaveLength(1);
    expect(noteZones([{ place: 1 }], layout)[0]).toHaveLength(1);
  });
});
