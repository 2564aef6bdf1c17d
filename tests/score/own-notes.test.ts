import { describe, expect, it } from 'vitest';
import { OwnNotes, ownParts } from '../../src/score/own-notes';
import { layeredPhrase } from '../phrase/phrase-of';
import { due } from './cases';

const NOTES = { pickup: 0, notes: true };
const PICKUP = { pickup: 2, notes: false };

/** One note a cycle, always at the same position unless told otherwise: x is right, - is wrong. */
function played(text: string, position: (i: number) => number = () => 3): OwnNotes {
  const own = new OwnNotes(NOTES);
  [...text].forEach((sign, i) =>
    own.add(due(i, { cycle: i + 1, position: position(i) }).note, sign === 'x'),
  );
  return own;
}
const apart = (i: number) => i + 1;

describe("a layer's own notes", () => {
  it.each([
    ['', { right: 0, wrong: 0, of: 2 }],
    ['x', { right: 1, wrong: 0, of: 2 }],
    ['x-', { right: 1, wrong: 1, of: 2 }],
    ['xx', undefined],
    ['xx-', undefined],
    ['x--', { right: 1, wrong: 2, of: 3 }],
    ['xxxxx-x', undefined],
    ['xxxx--x', { right: 5, wrong: 2, of: 7 }],
    ['xxxx--xx', undefined],
    ['xxx---xx', { right: 5, wrong: 3, of: 8 }],
    ['---xxx--xxx', undefined],
  ])('of which %j came at other places each time', (text, notes) => {
    expect(played(text, apart).lack?.notes).toEqual(notes);
  });

  it.each([
    ['xxxxxx--', []],
    ['xxxxx---', [3]],
    ['xxxxx---x', []],
    ['--', [3]],
    ['-', []],
  ])('of which one was %j: wrong each of its last times at %j', (text, positions) => {
    expect(played(text).lack?.positions ?? []).toEqual(positions);
  });

  it('let one position through among others only when it was right', () => {
    const own = new OwnNotes(NOTES);
    for (let cycle = 1; cycle <= 10; cycle++)
      for (let position = 1; position <= 12; position++)
        own.add(due(0, { cycle, position }).note, position !== 7);
    expect(own.lack).toEqual({ pickup: undefined, notes: undefined, positions: [7] });
  });

  it('have to have the pickup played last right as a whole', () => {
    const own = new OwnNotes(PICKUP);
    const stroke = (position: number, isRight: boolean) =>
      own.add(due(0, { cycle: 0, position }).note, isRight);
    expect(own.lack?.pickup).toEqual({ right: 0, wrong: 0, of: 2 });
    stroke(-2, true);
    stroke(-1, false);
    expect(own.lack?.pickup).toEqual({ right: 1, wrong: 1, of: 2 });
    stroke(-1, true);
    expect(own.lack).toBeUndefined();
    stroke(-2, false);
    expect(own.lack?.pickup).toEqual({ right: 1, wrong: 1, of: 2 });
    expect(own.withoutPickup().lack).toBeUndefined();
  });

  it('begin a new trial with the pickup alone', () => {
    const own = new OwnNotes({ pickup: 1, notes: true });
    own.add(due(0, { cycle: 0, position: -1 }).note, true);
    own.add(due(1, { cycle: 1, position: 1 }).note, true);
    own.add(due(2, { cycle: 2, position: 1 }).note, true);
    expect(own.lack).toBeUndefined();
    expect(own.afresh().lack).toEqual({
      pickup: undefined,
      notes: { right: 0, wrong: 0, of: 2 },
      positions: [],
    });
  });
});

describe('which notes of its own a layer has', () => {
  it.each([
    ['the sticking: all', 1, { pickup: 0, notes: true }],
    ['accents that come every third bar', 2, { pickup: 0, notes: true }],
    ['a pickup of two', 3, { pickup: 2, notes: false }],
    ['ghosts of the pickup and the cycle', 4, { pickup: 1, notes: true }],
    ['swing, which is nobody’s note', 5, { pickup: 0, notes: false }],
  ])('%s', (_, layer, parts) => {
    const phrase = layeredPhrase(
      { grouping: 'R L R L', meter: '4/4', subdivision: 2 },
      [{ where: { every: { partials: 24, at: [1] } }, set: { level: 'accent' } }],
      [
        {
          pickup: [
            { partialsBefore: 2, limb: 'R' },
            { partialsBefore: 1, limb: 'L' },
          ],
        },
      ],
      [{ where: { limb: 'L' }, set: { level: 'ghost' } }],
      [{ swing: '2:1' }],
    );
    expect(ownParts(phrase, layer)).toEqual(parts);
  });

  it('none, where a layer changes nothing', () => {
    const phrase = layeredPhrase({ grouping: 'R L' }, []);
    expect(ownParts(phrase, 2)).toEqual({ pickup: 0, notes: false });
  });
});
