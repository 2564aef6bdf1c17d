import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changedNotes, cycleStrokes, noteKey } from '../../../src/phrase/edit/cycle-strokes';
import { addChange } from '../../../src/phrase/edit/edit-changes';
import { noteSelection, pickupSelection } from '../../../src/phrase/edit/note-selection';
import { selectorOfNotes } from '../../../src/phrase/edit/selector-of-notes';
import { DraftCheck } from '../../../src/phrase/check/draft-check';
import { pickupNotes } from '../../../src/phrase/layers/expand';
import { layerStack } from '../../../src/phrase/layers/layer-stack';
import { draftOf } from '../../../src/phrase/model/phrase-draft';
import type { Selector } from '../../../src/phrase/model/phrase';
import { arbitraryPhraseFile } from '../arbitrary-phrase';
import { draftFrom } from '../draft-from';
import { layeredPhrase } from '../phrase-of';

const phrase = layeredPhrase(
  { grouping: 'R L R+K -', cycle: 8 },
  [{ where: { positions: [2] }, set: { silent: true } }],
  [
    { where: { positions: [1] }, set: { voice: 'ride' } },
    { where: { voice: 'ride' }, set: { level: 'accent' } },
  ],
);
const selected = (layer: number, where: Selector, changes?: number) => [
  ...noteSelection(layerStack(phrase, layer), where, changes),
];

describe('which notes a selector selects', () => {
  it('every right hand except the first of the cycle', () => {
    expect(selected(1, { limb: 'R', not: { nth: [1] } })).toEqual(['3/R', '5/R', '7/R']);
  });

  it('as the layers before left them, rests aside', () => {
    expect(selected(1, { limb: 'L' })).toEqual(['2/L', '6/L']);
    expect(selected(2, { limb: 'L' })).toEqual(['6/L']);
    expect(selected(3, { voice: 'ride' }, 0)).toEqual([]);
    expect(selected(3, { voice: 'ride' }, 1)).toEqual(['1/R']);
    expect(selected(3, { level: 'accent' })).toEqual(['1/R']);
    expect(selected(1, { beats: ['2'] })).toEqual(['5/R']);
  });
});

describe('which notes of the pickup a selector selects as well', () => {
  const led = layeredPhrase(
    { grouping: 'R L L K' },
    [
      {
        pickup: [
          { partialsBefore: 2, limb: 'R' },
          { partialsBefore: 1, limb: 'L' },
        ],
      },
    ],
    [{ where: { limb: 'L' }, set: { level: 'ghost' } }],
  );
  const ahead = (where: Selector, changes?: number) => [
    ...pickupSelection(layerStack(led, 3), where, changes),
  ];

  it('are those that a change with it changes: not by position, number or every so many', () => {
    expect(ahead({ limb: 'L' })).toEqual(['-1/L']);
    expect(ahead({})).toEqual(['-2/R', '-1/L']);
    expect(ahead({ beats: ['4 1/2'] })).toEqual(['-2/R']);
    expect(ahead({ level: 'ghost' })).toEqual(['-1/L']);
    expect(ahead({ level: 'ghost' }, 0)).toEqual([]);
    expect(ahead({ positions: [1] })).toEqual([]);
    expect(ahead({ nth: [1] })).toEqual([]);
    expect(ahead({ not: { nth: [1] } })).toEqual(['-2/R', '-1/L']);
    expect(ahead({ every: { partials: 1, at: [1] } })).toEqual([]);
    expect([...pickupSelection(layerStack(led, 1), {})]).toEqual([]);
  });

  it('lawWhatChanges: a change makes the notes it selects silent, and no others of the pickup', () => {
    const wheres: Selector[] = [{ limb: 'R' }, { voice: 'snare' }, { level: 'tap' }, { nth: [1] }];
    for (const where of wheres) {
      const draft = addChange(draftOf(led), 3, { kind: 'set', where, set: { silent: true } });
      const check = new DraftCheck(draft);
      const left = pickupNotes(check.phrase!, 3).map(noteKey);
      const chosen = ahead(where);
      expect(left).toEqual(ahead({}).filter((key) => !chosen.includes(key)));
    }
  });
});

describe('which notes a layer changed', () => {
  it('are those it made or set anew', () => {
    expect([...changedNotes(phrase, 3)]).toEqual(['1/R']);
    expect([...changedNotes(phrase, 2)]).toEqual([]);
  });
});

describe('a selector for chosen notes', () => {
  it('names positions, and the limb where a unison makes it necessary', () => {
    const notes = cycleStrokes(phrase, 3);
    const of = (...keys: string[]) => selectorOfNotes(notes, new Set(keys));
    expect(of('1/R', '5/R')).toEqual({ positions: [1, 5] });
    expect(of('3/R', '5/R')).toEqual({ limb: 'R', positions: [3, 5] });
    expect(of('3/R', '3/K')).toEqual({ positions: [3] });
    expect(of('1/R', '3/K')).toEqual({ any: [{ positions: [1] }, { limb: 'K', positions: [3] }] });
    expect(of()).toBeUndefined();
    expect(of(...notes.map(noteKey))).toEqual({});
  });

  it('lawExactly: selects the chosen notes and no others', () => {
    fc.assert(
      fc.property(arbitraryPhraseFile(), fc.array(fc.nat(), { maxLength: 8 }), (file, picks) => {
        const layer = file.layers.length;
        const work = new DraftCheck(draftFrom(file));
        const stack = work.upTo(layer)!;
        const notes = cycleStrokes(stack.phrase, layer);
        if (notes.length === 0) return;
        const keys = new Set(picks.map((pick) => noteKey(notes[pick % notes.length]!)));
        const where = selectorOfNotes(notes, keys);
        expect(where === undefined).toBe(keys.size === 0);
        if (!where) return;
        expect(noteSelection(stack, where)).toEqual(keys);
        const accents = { kind: 'set', where, set: { level: 'accent' } } as const;
        expect(work.with(addChange(work.draft, layer, accents)).upTo(layer)).toBeDefined();
      }),
    );
  });
});
