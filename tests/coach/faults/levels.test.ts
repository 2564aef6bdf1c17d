import { describe, expect, it } from 'vitest';
import { levels } from '../../../src/coach/faults/levels';
import type { TimedNote } from '../../../src/match/timed-note';
import type { Level } from '../../../src/phrase/model/level';
import { judged } from '../practice-take';
import { perfectTake } from './perfect-take';

/** 320 notes: a cycle of one bar has six ghosts and two accents of the left hand, two accents and five taps of the right. */
const take = perfectTake(16);
type Velocity = (due: TimedNote, nth: number) => number | undefined;
/** The take with some velocities; `nth` counts the notes of a level from 0. */
function found(velocity: Velocity, { dues, strokes, evidenceIn } = take) {
  const seen = new Map<Level, number>();
  const struck = strokes.map((stroke, i) => {
    const nth = seen.get(dues[i]!.note.level) ?? 0;
    seen.set(dues[i]!.note.level, nth + 1);
    return { ...stroke, velocity: velocity(dues[i]!, nth) ?? stroke.velocity };
  });
  return levels(evidenceIn(judged(dues, struck)));
}
const texts = (velocity: Velocity, of = take) => found(velocity, of).map(({ text }) => text);
const at =
  (level: Level, value: number, is: Velocity = () => 1): Velocity =>
  (due, nth) =>
    due.note.level === level && is(due, nth) ? value : undefined;
/** So many of six a cycle, in each cycle another one. */
const anywhere =
  (count: number): Velocity =>
  (_, nth) =>
    nth % 6 === Math.floor(nth / 6) % 6 && Math.floor(nth / 6) < count ? 1 : undefined;

describe('levels against the boundaries of the pads, 50 and 95', () => {
  it('are silent where all keep to them', () => {
    expect(found(() => undefined)).toEqual([]);
  });

  // Wilson's interval of 16 of 96 begins at 0.105, that of 15 of 96 at 0.097 [C].
  it('are told from where more than one in ten surely are off', () => {
    expect(texts(at('ghost', 60, anywhere(16)))).toEqual(['Snare ghosts too loud: 16 of 96.']);
    expect(texts(at('ghost', 60, anywhere(15)))).toEqual([]);
  });

  // 40·log10 of 60/50, 95/80, 120/95 and 50/40: the GM volume law [C].
  it.each<[string, Velocity, string, number, string | undefined]>([
    ['ghosts', at('ghost', 60), 'Snare ghosts too loud: 96 of 96.', 3.167, 'snare'],
    ['accents', at('accent', 80), 'Accents too soft: 64 of 64.', 2.985, undefined],
    [
      'taps of the ride',
      at('tap', 120, ({ note }) => (note.voice === 'ride' ? 1 : undefined)),
      'Ride taps too loud: 80 of 80.',
      4.058,
      'ride',
    ],
    [
      'taps of the ride, softly',
      at('tap', 40, ({ note }) => (note.voice === 'ride' ? 1 : undefined)),
      'Ride taps too soft: 80 of 80.',
      3.876,
      'ride',
    ],
  ])('%s: what, where and by how much', (_, velocity, text, db, name) => {
    const [told, ...rest] = found(velocity);
    expect([told!.text, rest]).toEqual([text, []]);
    const facts = told!.facts as { times: number; db: number; name: string | undefined };
    expect(facts.db).toBeCloseTo(db, 3);
    expect(facts.name).toBe(name);
    expect(told!.notes).toHaveLength(facts.times);
    expect(told!.weight).toBeCloseTo(facts.times / 320, 12);
  });

  it('half of them by so much', () => {
    // 60, 60 and 80 in turn: the middle one is 60.
    const mixed = at('ghost', 60, (_, nth) => (nth % 3 > 0 ? 1 : undefined));
    const [told] = found((due, nth) => mixed(due, nth) ?? at('ghost', 80)(due, nth));
    expect((told!.facts as { db: number }).db).toBeCloseTo(3.167, 3);
  });
});

describe('accents against ghosts', () => {
  const both =
    (accent: number, ghost: number): Velocity =>
    ({ note }) =>
      note.level === 'accent' ? accent : note.level === 'ghost' ? ghost : undefined;

  // 40·log10(95/40) = 15.03 dB, (95/41) 14.60 [C].
  it('are too near below 15 dB, where all keep inside their boundaries', () => {
    expect(texts(both(95, 40))).toEqual([]);
    expect(texts(both(95, 41))).toEqual(['Contrast 14 dB: accents too near the ghosts.']);
    expect(texts(both(95, 50))).toEqual(['Contrast 11 dB: accents too near the ghosts.']);
    expect(texts(both(95, 51))).toEqual(['Snare ghosts too loud: 96 of 96.']);
  });

  it('need six bars', () => {
    expect(texts(both(95, 50), perfectTake(6))).toHaveLength(1);
    expect(texts(both(95, 50), perfectTake(5))).toEqual([]);
  });

  it('upside down are told as that alone, from eight of each', () => {
    const eight = perfectTake(2);
    const accent = eight.dues.findIndex(({ note }) => note.level === 'accent');
    const without = <T>(list: readonly T[]) => list.filter((_, i) => i !== accent);
    const seven = { ...eight, dues: without(eight.dues), strokes: without(eight.strokes) };
    const upsideDown = 'Ghosts 18 dB louder than the accents.';
    expect(texts(both(40, 110), eight)).toEqual([upsideDown]);
    expect(texts(both(40, 110), seven)).not.toContain(upsideDown);
  });
});
