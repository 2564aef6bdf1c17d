import type { Beats } from '../time/beats';
import type { DraftGrace, DraftStroke } from './draft';
import { remainder } from '../time/whole';
import type { Every, Where } from './phrase';

/** A note as a selector sees it. A grace note has its main note's place and number. */
export interface Candidate {
  readonly main: DraftStroke;
  /** The grace note that is asked about; undefined for the main note itself. */
  readonly grace: DraftGrace | undefined;
  /** 1-based count of the main note's limb in the cycle; 0 in a pickup. */
  readonly nth: number;
  /** Partials from bar 1 beat 1; undefined in a pickup. */
  readonly partial: number | undefined;
  /** Partials from the bar line, against the meter. */
  readonly partialOfBar: number;
  /** Partials per beat. */
  readonly subdivision: number;
}

/**
 * Whether a note is selected: every key of the where must hold. A where says main notes only unless
 * it has `grace: true`; the members of its `any` say so each for themselves; inside `not` only the
 * keys that are written count.
 */
export const isSelected = (where: Where, note: Candidate): boolean => matches(where, note, false);

function matches(where: Where, note: Candidate, graceByDefault: boolean | undefined): boolean {
  const grace = where.grace ?? graceByDefault;
  const leftToMembers = where.grace === undefined && where.any !== undefined;
  if (!leftToMembers && grace !== undefined && grace !== (note.grace !== undefined)) return false;
  const draft = note.grace ?? note.main;
  return (
    (where.limb === undefined || where.limb === draft.limb) &&
    (where.voice === undefined || where.voice === draft.voice) &&
    (where.level === undefined || where.level === draft.level) &&
    (where.positions === undefined || where.positions.includes(note.main.position)) &&
    (where.nth === undefined || where.nth.includes(note.nth)) &&
    (where.beats === undefined || where.beats.some((beat) => isOnBeat(beat, note))) &&
    (where.every === undefined || comesRound(where.every, note)) &&
    (where.not === undefined || !matches(where.not, note, undefined)) &&
    (where.any === undefined || where.any.some((member) => matches(member, note, grace)))
  );
}

/** Whether a where can select other notes in another cycle. @example looksBeyondCycle({ not: { every: { partials: 7, at: [1] } } }) // => true */
export const looksBeyondCycle = ({ beats, every, not, any = [] }: Where): boolean =>
  beats !== undefined ||
  every !== undefined ||
  (not !== undefined && looksBeyondCycle(not)) ||
  any.some(looksBeyondCycle);

const comesRound = ({ partials, at }: Every, { partial }: Candidate): boolean =>
  partial !== undefined && at.includes(remainder(partial, partials) + 1);

/** Exact: beat = 1 + partials / subdivision, multiplied out to whole numbers. */
const isOnBeat = (beat: Beats, note: Candidate): boolean =>
  (Number(beat.n) - Number(beat.d)) * note.subdivision === note.partialOfBar * Number(beat.d);
