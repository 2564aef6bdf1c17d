import { parseBeats } from '../../time/beats';
import { remainder } from '../../time/whole';
import type { LayerStroke } from './layer-stroke';
import type { NoteSound } from '../model/note';
import type { Selector } from '../model/phrase';

/** Where a main note is, as a selector sees it. Its grace notes have its place and number. */
export interface NotePlace {
  /** 1-based count of the main note's limb in the cycle; 0 in a pickup. */
  readonly nth: number;
  /** Partials from bar 1 beat 1; undefined in a pickup. */
  readonly partial: number | undefined;
  /** Partials from the bar line, against the meter. */
  readonly partialOfBar: number;
}

type MainSound = NoteSound & Pick<LayerStroke, 'position'>;

/** Whether a selector selects a main note or, where one is named, a grace note of it. */
export type NoteTest = (main: MainSound, grace: NoteSound | undefined, at: NotePlace) => boolean;

/**
 * What a selector asks on so many partials to a beat, put together once for all notes: every key of it must hold; a
 * beat that cannot be read is on no partial. A selector means main notes only unless it has `grace: true`; the members
 * of its `any` say so each for themselves; inside `not` only the keys that are written count, so that
 * `not: { limb: 'L' }` leaves out grace notes and main notes of that hand alike, and `not: { grace: true }` leaves out
 * grace notes.
 */
export function noteTest(where: Selector, subdivision: number): NoteTest {
  const known = TESTS.get(where);
  if (known?.subdivision === subdivision) return known.test;
  const test = testOf(where, subdivision, false);
  TESTS.set(where, { subdivision, test });
  return test;
}

/** Of each selector as it was asked last: the same one is laid on cycle after cycle. */
const TESTS = new WeakMap<Selector, { readonly subdivision: number; readonly test: NoteTest }>();

function testOf(
  where: Selector,
  subdivision: number,
  graceByDefault: boolean | undefined,
): NoteTest {
  const { grace: asksGrace, limb, voice, level, positions, nth, beats, every, not, any } = where;
  const asked = asksGrace ?? graceByDefault;
  const tests: NoteTest[] = [];
  if (asked !== undefined && (asksGrace !== undefined || any === undefined))
    tests.push((_, grace) => asked === (grace !== undefined));
  if (limb !== undefined) tests.push((main, grace) => (grace ?? main).limb === limb);
  if (voice !== undefined) tests.push((main, grace) => (grace ?? main).voice === voice);
  if (level !== undefined) tests.push((main, grace) => (grace ?? main).level === level);
  if (positions) {
    const there = new Set(positions);
    tests.push((main) => there.has(main.position));
  }
  if (nth) {
    const numbers = new Set(nth);
    tests.push((_, __, at) => numbers.has(at.nth));
  }
  if (beats) {
    const partials = new Set(beats.map((text) => partialOf(text, subdivision)));
    tests.push((_, __, at) => partials.has(at.partialOfBar));
  }
  if (every) {
    const places = new Set(every.at);
    tests.push(
      (_, __, { partial }) =>
        partial !== undefined && places.has(remainder(partial, every.partials) + 1),
    );
  }
  if (not) {
    const inside = testOf(not, subdivision, undefined);
    tests.push((main, grace, at) => !inside(main, grace, at));
  }
  if (any) {
    const members = any.map((member) => testOf(member, subdivision, asked));
    tests.push((main, grace, at) => members.some((member) => member(main, grace, at)));
  }
  return all(tests);
}

/** One and two keys are what most selectors have, and are asked without a loop. */
function all(tests: readonly NoteTest[]): NoteTest {
  const [first, second] = tests;
  if (!first) return () => true;
  if (!second) return first;
  if (tests.length === 2)
    return (main, grace, at) => first(main, grace, at) && second(main, grace, at);
  return (main, grace, at) => tests.every((test) => test(main, grace, at));
}

const partialOf = (beat: string, subdivision: number): number =>
  parseBeats(beat)?.sub(1).mul(subdivision).valueOf() ?? NaN;

/** Whether something holds of a selector, or of one inside it. @example someSelector({ not: { nth: [1] } }, ({ nth }) => nth !== undefined) // => true */
export const someSelector = (where: Selector, holds: (where: Selector) => boolean): boolean =>
  holds(where) ||
  (where.not !== undefined && someSelector(where.not, holds)) ||
  (where.any?.some((member) => someSelector(member, holds)) ?? false);

/** Whether a selector counts the strokes of a limb. */
export const hasNumbers = (where: Selector): boolean =>
  someSelector(where, ({ nth }) => nth !== undefined);

/** Whether a selector can select other notes in another cycle. @example looksBeyondCycle({ not: { every: { partials: 7, at: [1] } } }) // => true */
export const looksBeyondCycle = (where: Selector): boolean =>
  someSelector(where, ({ beats, every }) => beats !== undefined || every !== undefined);
