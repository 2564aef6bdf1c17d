import { describe, expect, it } from 'vitest';
import { ownNotesFirst } from '../../../src/coach/faults/own-notes';
import { finding, type Finding } from '../../../src/coach/finding';
import type { TimedNote } from '../../../src/match/timed-note';
import type { JudgedNote } from '../../../src/score/judged-note';
import { perfectTake } from './perfect-take';

/** Three bars of 20 notes, of which the second layer changed ten: all of the left hand, and two of the right. */
const take = perfectTake(3);
const isOwn = ({ due }: JudgedNote) => due.note.layers.includes(2);
const [own, others] = [
  take.judgement.notes.filter(isOwn),
  take.judgement.notes.filter((n) => !isOwn(n)),
];

type Fault = Partial<Pick<JudgedNote, 'verdict' | 'levelVerdict'>>;
/** The take with these notes wrong. */
function ownFirst(
  wrong: ReadonlyMap<JudgedNote, Fault>,
  found: Finding[] = [],
  { judgement, evidenceIn } = take,
) {
  const notes = judgement.notes.map((note) => ({ ...note, ...wrong.get(note) }));
  return ownNotesFirst(evidenceIn({ notes, extras: [] }), found);
}
const first = (notes: readonly JudgedNote[], count: number, fault: Fault = { verdict: 'late' }) =>
  notes.slice(0, count).map((note) => [note, fault] as const);
const wrongOwn = (count: number, fault?: Fault) => new Map(first(own, count, fault));
const texts = (found: readonly Finding[]) => found.map(({ text }) => text);
const about = (notes: readonly JudgedNote[], ms = 12): Finding =>
  finding(
    'spread',
    0.1,
    notes.map(({ due }): TimedNote => due),
    { ms },
  );

describe('the notes of a layer itself', () => {
  it('has as many of them as the layer changed', () => {
    expect([own.length, others.length]).toEqual([30, 30]);
  });

  it('come first where two of three are wrong', () => {
    const [told, ...rest] = ownFirst(wrongOwn(20));
    expect(rest).toEqual([]);
    expect(told!.text).toBe('“Dynamics”: 20 of its 30 notes late.');
    expect(told!.weight).toBe(2);
    expect(told!.notes).toEqual(own.slice(0, 20).map(({ due }) => due));
    expect(ownFirst(wrongOwn(19))).toEqual([]);
  });

  it.each<[Fault, string]>([
    [{ verdict: 'wrong voice' }, 'in another voice'],
    [{ verdict: 'missed' }, 'missed'],
    [{ verdict: 'early' }, 'early'],
    [{ verdict: 'late' }, 'late'],
    [{ verdict: 'late', levelVerdict: 'too loud' }, 'late'],
    [{ levelVerdict: 'too loud' }, 'too loud'],
    [{ levelVerdict: 'too soft' }, 'too soft'],
  ])('%j is told as "%s"', (fault, words) => {
    expect(texts(ownFirst(wrongOwn(24, fault)))).toEqual([
      `“Dynamics”: 24 of its 30 notes ${words}.`,
    ]);
  });

  it('are told by what most of them have', () => {
    const mixed = new Map([
      ...first(own, 24, { verdict: 'missed' }),
      ...first(own, 11, { verdict: 'early' }),
    ]);
    expect(texts(ownFirst(mixed))).toEqual(['“Dynamics”: 24 of its 30 notes missed.']);
    const [early, ...none] = ownFirst(new Map([...mixed, ...first(own, 13, { verdict: 'early' })]));
    expect([early!.text, none]).toEqual(['“Dynamics”: 24 of its 30 notes early.', []]);
  });

  it('do not where the others are wrong half as often', () => {
    const late = { verdict: 'late' } as const;
    expect(texts(ownFirst(new Map([...first(own, 20), ...first(others, 10, late)])))).toHaveLength(
      1,
    );
    expect(ownFirst(new Map([...first(own, 20), ...first(others, 11, late)]))).toEqual([]);
  });

  it('do not on fewer than three', () => {
    const once = perfectTake(3, 2, {
      title: 'Slipway',
      meter: '4/4',
      tempoBpm: 96,
      subdivision: 4,
      grouping: 'R L R L R L R L R L R L R L R L',
      layers: [
        { name: 'Sticking' },
        { name: 'Accent', changes: [{ where: { positions: [1] }, set: { level: 'accent' } }] },
      ],
    });
    const accents = once.judgement.notes.filter(isOwn);
    expect(accents).toHaveLength(3);
    expect(texts(ownFirst(new Map(first(accents, 3)), [], once))).toEqual([
      '“Accent”: 3 of its 3 notes late.',
    ]);
    expect(ownFirst(new Map(first(accents, 2)), [], once)).toEqual([]);
  });

  it('do not where the layer has no others, nor in the first layer', () => {
    const said = [about([])];
    const bottom = perfectTake(3, 1);
    const all = new Map(first(bottom.judgement.notes, 60));
    expect(ownFirst(all, said, bottom)).toBe(said);
    const changesAll = perfectTake(3, 2, {
      title: 'Slipway',
      meter: '4/4',
      tempoBpm: 96,
      subdivision: 4,
      grouping: 'R L R L',
      layers: [
        { name: 'Sticking' },
        {
          name: 'Toms',
          changes: [{ where: { positions: [1, 2, 3, 4] }, set: { voice: 'floor tom' } }],
        },
      ],
    });
    const toms = new Map(first(changesAll.judgement.notes, 48));
    expect(ownFirst(toms, said, changesAll)).toBe(said);
  });
});

describe('what is said of them already', () => {
  it('is moved to the front where it covers four in five of them, and is said once', () => {
    const elsewhere = about(others.slice(0, 8), 20);
    const same = about(own.slice(0, 16));
    expect(ownFirst(wrongOwn(20), [elsewhere, same])).toEqual([{ ...same, weight: 2 }, elsewhere]);
  });

  it('is left out where it covers less, and they are told themselves', () => {
    const elsewhere = about(others.slice(0, 8), 20);
    const part = about(own.slice(0, 15));
    expect(texts(ownFirst(wrongOwn(20), [part, elsewhere]))).toEqual([
      '“Dynamics”: 20 of its 30 notes late.',
      'Spread 20 ms.',
    ]);
  });

  it('is told beside them where four in five of its notes are not theirs', () => {
    const withOthers = (count: number) => about([...own.slice(0, 20), ...others.slice(0, count)]);
    expect(texts(ownFirst(wrongOwn(20), [withOthers(5)]))).toEqual(['Spread 12 ms.']);
    expect(texts(ownFirst(wrongOwn(20), [withOthers(6)]))).toEqual([
      '“Dynamics”: 20 of its 30 notes late.',
      'Spread 12 ms.',
    ]);
  });
});
