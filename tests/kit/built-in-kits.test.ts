import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI, kitFor } from '../../src/kit/built-in-kits';
import { readStrokes } from '../../src/kit/read-strokes';
import { readMidiFile } from '../../src/take/read-midi-file';
import { HUMAN_TAKES, humanTake } from '../take/human-takes';

/**
 * The 22 notes of the kit that the Groove MIDI Dataset was played on, and how often each was struck (Gillick et al.
 * 2019, CC BY 4.0, table on its page, F).
 */
const STRUCK: readonly (readonly [note: number, hits: number])[] = [
  [36, 88067],
  [38, 102787],
  [40, 22262],
  [37, 9696],
  [48, 13145],
  [50, 1561],
  [45, 3935],
  [47, 1322],
  [43, 11260],
  [58, 1003],
  [46, 3905],
  [26, 10243],
  [42, 31691],
  [22, 34764],
  [44, 52343],
  [49, 720],
  [55, 5567],
  [57, 1832],
  [52, 1046],
  [51, 43847],
  [59, 2220],
  [53, 5567],
];
const times = (count: number, ...notes: readonly number[]) =>
  notes.flatMap((note) => Array.from({ length: count }, () => note));

describe('the kit that notes point to', () => {
  it('is the one with zones for all that such a kit was struck, by thousands of strokes', () => {
    expect(kitFor(STRUCK.flatMap(([note, hits]) => times(Math.ceil(hits / 1000), note)))).toBe(
      EDGE_AND_RIM,
    );
  });

  it.each(STRUCK)('is the one with zones for note %i beside the rim of the floor tom', (note) => {
    expect(kitFor([58, note])).toBe(EDGE_AND_RIM);
  });

  it.each([
    ['a hi-hat edge among strokes that both kits have', [36, 26]],
    ['a hi-hat edge alone', [22]],
    // 164 of 1,150 files of that dataset have no hi-hat edge, but these: 1,000 strokes.
    ['a crash edge', [36, 38, 42, 51, 55]],
    ['the edge of the other crash', [36, 38, 44, 51, 52]],
    ['the rim of the floor tom', [36, 38, 43, 58]],
    ['more hi-hat edges than hand claps', [36, 38, ...times(3, 22), ...times(2, 39)]],
  ])('is the one with zones for %s', (_, notes) => {
    expect(kitFor(notes)).toBe(EDGE_AND_RIM);
  });

  it.each([
    ['nothing', []],
    ['what both kits read alike', [36, 38, 42, 46, 49, 51]],
    ['a splash beside percussion that no kit with zones has', [36, 38, 42, 55, 56]],
    ['a hand clap', [36, 39]],
    ['more hand claps than hi-hat edges', [36, 38, ...times(2, 22), ...times(3, 39)]],
  ])('is General MIDI for %s', (_, notes) => {
    expect(kitFor(notes)).toBe(GENERAL_MIDI);
  });

  it('is the same whatever order the notes come in', () => {
    const notes = [36, 55, 39, 22, 22, 38];
    expect(kitFor(notes.toReversed())).toBe(kitFor(notes));
  });

  // The takes' notes follow the map with zones (shared/takes/README.md).
  it.each(HUMAN_TAKES)('reads no stroke of %s as a voice that its kit has not', (name) => {
    const parsed = readMidiFile(humanTake(name));
    if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
    const { messages } = parsed.value;
    const struck = messages.filter(({ status, data2 }) => status >> 4 === 9 && data2 > 0);
    const withoutHiHatEdges = struck.filter(({ data1 }) => data1 !== 22 && data1 !== 26);
    for (const some of [struck, withoutHiHatEdges]) {
      const kit = kitFor(some.map(({ data1 }) => data1));
      const strokes = readStrokes(some, kit).strokes;
      expect(strokes.map(({ voice }) => voice)).toEqual(
        readStrokes(some, EDGE_AND_RIM).strokes.map(({ voice }) => voice),
      );
    }
  });
});
