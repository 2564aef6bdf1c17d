import { parseBeats } from '../../time/beats';
import { remainder } from '../../time/whole';
import type { DraftStroke } from './draft';
import type { NoteSound } from '../model/note';
import type { Every, Selector } from '../model/phrase';

/** Where a main note is, as a selector sees it. Its grace notes have its place and number. */
export interface NotePlace {
  /** 1-based count of the main note's limb in the cycle; 0 in a pickup. */
  readonly nth: number;
  /** Partials from bar 1 beat 1; undefined in a pickup. */
  readonly partial: number | undefined;
  /** Partials from the bar line, against the meter. */
  readonly partialOfBar: number;
}

type MainSound = NoteSound & Pick<DraftStroke, 'position'>;

/** A selector with the beats it names as partials of a bar. */
export type GridSelector = Omit<Selector, 'beats' | 'not' | 'any'> & {
  /** From 0; parts of partials are on none. */
  readonly partialsOfBar?: readonly number[];
  readonly not?: GridSelector;
  readonly any?: readonly GridSelector[];
};

/** The selector on so many partials to a beat; a beat that cannot be read is on none of them. */
export function gridSelector(where: Selector, subdivision: number): GridSelector {
  if (!someSelector(where, ({ beats }) => beats !== undefined)) return where;
  const { beats, not, any, ...rest } = where;
  return {
    ...rest,
    ...(beats && { partialsOfBar: beats.map((text) => partialOf(text, subdivision)) }),
    ...(not && { not: gridSelector(not, subdivision) }),
    ...(any && { any: any.map((member) => gridSelector(member, subdivision)) }),
  };
}

const partialOf = (beat: string, subdivision: number): number =>
  parseBeats(beat)?.sub(1).mul(subdivision).valueOf() ?? NaN;

/**
 * Whether a main note, or the grace note of it that is named, is selected: every key of the selector must hold. A
 * selector means main notes only unless it has `grace: true`; the members of its `any` say so each for themselves;
 * inside `not` only the keys that are written count, so that `not: { limb: 'L' }` leaves out grace notes and main
 * notes of that hand alike, and `not: { grace: true }` leaves out grace notes.
 */
export const isSelected = (
  where: GridSelector,
  main: MainSound,
  grace: NoteSound | undefined,
  at: NotePlace,
): boolean => matches(where, main, grace, at, false);

function matches(
  where: GridSelector,
  main: MainSound,
  grace: NoteSound | undefined,
  at: NotePlace,
  graceByDefault: boolean | undefined,
): boolean {
  const asked = where.grace ?? graceByDefault;
  const leftToMembers = where.grace === undefined && where.any !== undefined;
  if (!leftToMembers && asked !== undefined && asked !== (grace !== undefined)) return false;
  const note = grace ?? main;
  return (
    (where.limb === undefined || where.limb === note.limb) &&
    (where.voice === undefined || where.voice === note.voice) &&
    (where.level === undefined || where.level === note.level) &&
    (where.positions === undefined || where.positions.includes(main.position)) &&
    (where.nth === undefined || where.nth.includes(at.nth)) &&
    (where.partialsOfBar === undefined || where.partialsOfBar.includes(at.partialOfBar)) &&
    (where.every === undefined || comesRound(where.every, at)) &&
    (where.not === undefined || !matches(where.not, main, grace, at, undefined)) &&
    (where.any === undefined || where.any.some((member) => matches(member, main, grace, at, asked)))
  );
}

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

const comesRound = ({ partials, at }: Every, { partial }: NotePlace): boolean =>
  partial !== undefined && at.includes(remainder(partial, partials) + 1);
