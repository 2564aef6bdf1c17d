import type { Beats } from '../../time/beats';
import type { DraftGrace, DraftStroke } from './draft';
import { remainder } from '../../time/whole';
import type { Every, Selector } from '../model/phrase';

/** Where a main note is, as a selector sees it. Its grace notes have its place and number. */
export interface NotePlace {
  /** 1-based count of the main note's limb in the cycle; 0 in a pickup. */
  readonly nth: number;
  /** Partials from bar 1 beat 1; undefined in a pickup. */
  readonly partial: number | undefined;
  /** Partials from the bar line, against the meter. */
  readonly partialOfBar: number;
  /** Partials per beat. */
  readonly subdivision: number;
}

/** What a selector asks of a note's sound. */
type Sound = Pick<DraftGrace, 'limb' | 'voice' | 'level'>;
type MainSound = Sound & Pick<DraftStroke, 'position'>;

/**
 * Whether a main note, or the grace note of it that is named, is selected: every key of the where must hold. A selector
 * says main notes only unless it has `grace: true`; the members of its `any` say so each for themselves; inside
 * `not` only the keys that are written count.
 */
export const isSelected = (
  where: Selector,
  main: MainSound,
  grace: Sound | undefined,
  at: NotePlace,
): boolean => matches(where, main, grace, at, false);

function matches(
  where: Selector,
  main: MainSound,
  grace: Sound | undefined,
  at: NotePlace,
  graceByDefault: boolean | undefined,
): boolean {
  const asked = where.grace ?? graceByDefault;
  const leftToMembers = where.grace === undefined && where.any !== undefined;
  if (!leftToMembers && asked !== undefined && asked !== (grace !== undefined)) return false;
  const draft = grace ?? main;
  return (
    (where.limb === undefined || where.limb === draft.limb) &&
    (where.voice === undefined || where.voice === draft.voice) &&
    (where.level === undefined || where.level === draft.level) &&
    (where.positions === undefined || where.positions.includes(main.position)) &&
    (where.nth === undefined || where.nth.includes(at.nth)) &&
    (where.beats === undefined || where.beats.some((beat) => isOnBeat(beat, at))) &&
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

/** Whether a selector can select other notes in another cycle. @example looksBeyondCycle({ not: { every: { partials: 7, at: [1] } } }) // => true */
export const looksBeyondCycle = (where: Selector): boolean =>
  someSelector(where, ({ beats, every }) => beats !== undefined || every !== undefined);

const comesRound = ({ partials, at }: Every, { partial }: NotePlace): boolean =>
  partial !== undefined && at.includes(remainder(partial, partials) + 1);

/** Exact: beat = 1 + partials / subdivision, multiplied out to whole numbers. */
const isOnBeat = (beat: Beats, { subdivision, partialOfBar }: NotePlace): boolean =>
  (Number(beat.n) - Number(beat.d)) * subdivision === partialOfBar * Number(beat.d);
