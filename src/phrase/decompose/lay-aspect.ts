import type { Change } from '../model/phrase';
import { applySelection, type AppliedChanges } from './apply-selection';
import { byRounds, type Task } from './by-rounds';
import type { Aspect, Cell, Sheet, NoteAspects } from './cell';
import { changeLength } from './description-length';
import { findSelector } from './find-selector';

export interface Aim {
  readonly aspect: Aspect;
  readonly isGrace: boolean;
  /** Values to bring about, in this order. */
  readonly values: readonly NoteAspects[Aspect][];
  /** Whether a change may take notes along that a later one gives their own value. */
  readonly overrides: boolean;
}

/** The fewest words that bring the values about, or undefined when no selections tell the notes apart. */
export function layAspect(
  cells: readonly Cell[],
  aim: Aim,
  sheet: Sheet,
): AppliedChanges | undefined {
  const { aspect, isGrace, values } = aim;
  /** A stroke that rests may become anything. */
  const isMeant = (cell: Cell) =>
    cell.isGrace === isGrace && (isGrace || aspect === 'silent' || !cell.silent);
  const byOwnHand = aspect === 'grace' ? gracedByOwnHand(cells) : NONE;
  let laid: AppliedChanges = { changes: [], cells };
  for (const [i, value] of values.entries()) {
    const later = aim.overrides ? values.slice(i + 1) : [];
    const isLost = (cell: Cell) => cell[aspect] === value && byOwnHand.has(cell.main);
    const isNever = (cell: Cell) =>
      isMeant(cell) &&
      ((cell.wants[aspect] !== value && !later.includes(cell.wants[aspect])) || isLost(cell));
    const must = laid.cells.flatMap((cell, at) =>
      isMeant(cell) && cell.wants[aspect] === value ? [at] : [],
    );
    const step = cover(laid.cells, must, { aspect, value, isNever, sheet });
    if (!step) return undefined;
    laid = { changes: [...laid.changes, ...step.changes], cells: step.cells };
  }
  return laid;
}

const NONE: ReadonlySet<number> = new Set();

/** Main notes whose grace notes a change to as many would give to the other hand. */
const gracedByOwnHand = (cells: readonly Cell[]): ReadonlySet<number> =>
  new Set(
    cells.flatMap(({ isGrace, limb, main }) =>
      isGrace && limb === cells[main]!.limb ? [main] : [],
    ),
  );

export const wordsOf = (changes: readonly Change[]): number =>
  changes.reduce((sum, change) => sum + changeLength(change), 0);

/** Words of two accent cycles. */
const TWO_ROUNDS = 5;

/**
 * One change for all, one for each limb, voice, level or the pickup apart, or one for each of a few places that
 * come round: whichever takes fewest words.
 */
function cover(
  cells: readonly Cell[],
  places: readonly number[],
  task: Task,
): AppliedChanges | undefined {
  const must = places.filter((at) => cells[at]![task.aspect] !== task.value);
  if (must.length === 0) return { changes: [], cells };
  let best = atOnce(cells, must, task);
  if (best && wordsOf(best.changes) <= 3) return best;
  for (const key of ['limb', 'voice', 'level', 'isPickup'] as const) {
    const kinds = [...new Set(must.map((at) => cells[at]![key]))];
    if (kinds.length < 2) continue;
    const parts = kinds.map((kind) => must.filter((at) => cells[at]![key] === kind));
    const split = inParts(cells, parts, task);
    if (split && (!best || wordsOf(split.changes) < wordsOf(best.changes))) best = split;
  }
  if (best && wordsOf(best.changes) <= TWO_ROUNDS) return best;
  const rounds = byRounds(cells, must, task);
  return rounds && (!best || wordsOf(rounds.changes) < wordsOf(best.changes)) ? rounds : best;
}

function atOnce(
  cells: readonly Cell[],
  must: readonly number[],
  task: Task,
): AppliedChanges | undefined {
  const { aspect, value, isNever, sheet } = task;
  const found = findSelector(
    must.map((at) => cells[at]!),
    cells.filter(isNever),
    sheet,
    aspect === 'level' && value === 'accent',
  );
  return found && applySelection(cells, found, aspect, value, sheet);
}

/** Each part by itself, told further apart only where it must be. */
function inParts(
  cells: readonly Cell[],
  parts: readonly (readonly number[])[],
  task: Task,
): AppliedChanges | undefined {
  let laid: AppliedChanges = { changes: [], cells };
  for (const part of parts) {
    const must = part.filter((at) => laid.cells[at]![task.aspect] !== task.value);
    if (must.length === 0) continue;
    const step = atOnce(laid.cells, must, task) ?? cover(laid.cells, must, task);
    if (!step) return undefined;
    laid = { changes: [...laid.changes, ...step.changes], cells: step.cells };
  }
  return laid;
}
