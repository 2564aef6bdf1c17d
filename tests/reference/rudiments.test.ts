import { describe, expect, it } from 'vitest';
import { expand } from '../../src/phrase/layers/expand';
import type { Note } from '../../src/phrase/model/note';
import type { PhraseFile } from '../../src/phrase/model/phrase-file';
import { phraseOf } from '../phrase/phrase-of';
import { RUDIMENTS } from './rudiment-stickings';

/** Sticking of one lead, or of both. */
const ROLLS: readonly (readonly [string, number, string])[] = [
  ['five stroke roll', 5, 'RRLLR LLRRL'],
  ['seven stroke roll', 7, 'RRLLRRL'],
  ['nine stroke roll', 9, 'RRLLRRLLR LLRRLLRRL'],
  ['eleven stroke roll', 11, 'RRLLRRLLRRL'],
  ['thirteen stroke roll', 13, 'RRLLRRLLRRLLR'],
  ['fifteen stroke roll', 15, 'RRLLRRLLRRLLRRL'],
  ['seventeen stroke roll', 17, 'RRLLRRLLRRLLRRLLR'],
];

const spaced = (sticking: string) => [...sticking.replaceAll(' ', '')].join(' ');
const notesOf = (file: Partial<PhraseFile>, cycles = 1) => expand(phraseOf(file), 1, { cycles });
const hands = (notes: readonly Note[]) =>
  notes.map(({ limb, graceStep }) => (graceStep > 0 ? limb.toLowerCase() : limb)).join('');
const mirrored = (sticking: string) =>
  sticking.replace(/[RLrl]/g, (hand) => ({ R: 'L', L: 'R', r: 'l', l: 'r' })[hand]!);
const accents = (sticking: string, positions: number[]): Partial<PhraseFile> => ({
  grouping: spaced(sticking),
  layers: [{ name: 'Rudiment', changes: [{ where: { positions }, set: { level: 'accent' } }] }],
});

describe('rudiments as groupings', () => {
  it.each(RUDIMENTS)(
    '%s sounds its hands in order, grace notes ahead of their stroke',
    (_, grouping) => {
      expect(hands(notesOf({ grouping }))).toBe(grouping.replaceAll(' ', ''));
    },
  );
});

describe('roll invariants', () => {
  it.each(ROLLS)('%s: (n - 1) / 2 doubles and one accent', (_, n, sticking) => {
    const [lead = ''] = sticking.split(' ');
    const notes = notesOf(accents(lead, [n]));
    expect(notes).toHaveLength(n);
    const doubles = Array.from({ length: (n - 1) / 2 }, (__, i) => notes.slice(2 * i, 2 * i + 2));
    expect(doubles.every(([a, b]) => a!.limb === b!.limb)).toBe(true);
    expect(doubles.every(([a], i) => i === 0 || a!.limb !== doubles[i - 1]![0]!.limb)).toBe(true);
    expect(notes.filter((note) => note.level === 'accent').map((note) => note.position)).toEqual([
      n,
    ]);
    expect(notes.at(-1)!.limb).not.toBe(notes.at(-2)!.limb);
  });

  it('from RR the accent falls to R in 5, 9, 13, 17 and to L in 7, 11, 15', () => {
    const byHand = { R: [] as number[], L: [] as number[] };
    for (const [, n, sticking] of ROLLS) {
      const last = notesOf(accents(sticking.split(' ')[0]!, [n])).find(
        (x) => x.level === 'accent',
      )!;
      byHand[last.limb as 'R' | 'L'].push(n);
    }
    expect(byHand).toEqual({ R: [5, 9, 13, 17], L: [7, 11, 15] });
  });

  it.each(ROLLS.filter(([, , sticking]) => sticking.includes(' ')))(
    '%s: led by the left it is the mirror',
    (_, __, sticking) => {
      const [right = '', left = ''] = sticking.split(' ');
      expect(left).toBe(mirrored(right));
    },
  );
});

describe('paradiddle invariants', () => {
  it.each([
    ['single', 'RLRR', true],
    ['double', 'RLRLRR', true],
    ['triple', 'RLRLRLRR', true],
    ['paradiddle-diddle', 'RLRRLL', false],
    ['six stroke roll', 'RLLRRL', false],
  ])('%s: the next repetition swaps the lead when the last hand is the lead hand', (...row) => {
    const [, once, swaps] = row;
    const notes = notesOf({ grouping: spaced(once + (swaps ? mirrored(once) : once)) }, 2);
    const starts = notes.filter((_, i) => i % once.length === 0).map((note) => note.limb);
    expect(starts).toEqual(swaps ? ['R', 'L', 'R', 'L'] : ['R', 'R', 'R', 'R']);
    expect(notes[once.length - 1]!.limb === notes[0]!.limb).toBe(swaps);
    expect(hands(notes)).not.toMatch(/RRR|LLL/);
  });

  it('two repetitions have two accents, one for each hand', () => {
    const found = notesOf(accents('RLRRLRLL', [1, 5])).filter((note) => note.level === 'accent');
    expect(found.map((note) => note.limb)).toEqual(['R', 'L']);
  });

  it('rotating a sticking by k and then by n - k is the sticking; RLRL has two rotations, RLRRLRLL eight', () => {
    const rotated = (sticking: string, by: number) => sticking.slice(by) + sticking.slice(0, by);
    const displaced = (sticking: string, by: number) => {
      const layers = [{ name: 'a', changes: by === 0 ? [] : [{ displace: -by }] }];
      const phrase = phraseOf({ grouping: spaced(sticking), layers });
      return hands(expand(phrase, 1, { cycles: 2 })).slice(0, sticking.length);
    };
    for (const sticking of ['RLRL', 'RLRRLRLL', 'RLRRLL']) {
      const n = sticking.length;
      const all = Array.from({ length: n }, (_, by) => displaced(sticking, by));
      expect(all).toEqual(Array.from({ length: n }, (_, by) => rotated(sticking, by)));
      for (let by = 1; by < n; by++) expect(displaced(all[by]!, n - by)).toBe(sticking);
    }
    const distinct = (sticking: string) =>
      new Set(Array.from({ length: sticking.length }, (_, by) => displaced(sticking, by))).size;
    expect([distinct('RLRL'), distinct('RLRRLRLL'), distinct('RLRRLL')]).toEqual([2, 8, 6]);
  });
});
