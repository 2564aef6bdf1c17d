import { divisors, remainder } from '../../time/whole';
import { MAX_CYCLE } from '../model/phrase-file';
import { applySelection, type AppliedChanges } from './apply-selection';
import type { Aspect, Cell, Sheet, NoteAspects } from './cell';
import { roundsOf } from './find-selector';

/** More of them are no idea of their own. Chosen, not measured. */
const MOST_ROUNDS = 6;

/** One place that comes round after so many partials, both from bar 1 beat 1; `at` from 0. */
interface Round {
  readonly partials: number;
  readonly at: number;
}

/** What should become of the notes at some places of the list, and which others must not be taken along. */
export interface Task {
  readonly aspect: Aspect;
  readonly value: NoteAspects[Aspect];
  readonly isNever: (cell: Cell) => boolean;
  readonly sheet: Sheet;
}

/**
 * A value brought about by several places that come round by themselves, such as two accent cycles over each other:
 * each time the one that takes most of the notes left. Undefined when a few of them do not take all.
 */
export function byRounds(
  cells: readonly Cell[],
  places: readonly number[],
  { aspect, value, isNever, sheet }: Task,
): AppliedChanges | undefined {
  let left = places.map((at) => cells[at]!);
  if (left.some((cell) => cell.isPickup)) return undefined;
  const isAccents = aspect === 'level' && value === 'accent';
  const lengths = isAccents
    ? divisors(sheet.span).filter((partials) => partials > 1 && partials <= MAX_CYCLE)
    : roundsOf(sheet);
  const free = freeRounds(
    cells.filter((cell) => !cell.isPickup && isNever(cell)),
    lengths,
  );
  const rounds: Round[] = [];
  while (left.length > 0) {
    const best = rounds.length < MOST_ROUNDS ? fullest(left, free) : undefined;
    if (!best) return undefined;
    rounds.push(best);
    left = left.filter((cell) => remainder(cell.partial, best.partials) !== best.at);
  }
  const grace = cells[places[0]!]!.isGrace ? { grace: true } : {};
  let laid: AppliedChanges = { changes: [], cells };
  for (const { partials, at } of rounds) {
    const where = { ...grace, every: { partials, at: [at + 1] } };
    const step = applySelection(laid.cells, { where, areAccents: isAccents }, aspect, value, sheet);
    laid = { changes: [...laid.changes, ...step.changes], cells: step.cells };
  }
  return laid;
}

/** By number of partials: 1 at each place that no note stands in the way of. */
function freeRounds(
  never: readonly Cell[],
  lengths: readonly number[],
): ReadonlyMap<number, Uint8Array> {
  return new Map(
    lengths.map((partials) => {
      const isFree = new Uint8Array(partials).fill(1);
      for (const cell of never) isFree[remainder(cell.partial, partials)] = 0;
      return [partials, isFree];
    }),
  );
}

/** The free round with most of these notes, of those the one of fewest partials. */
function fullest(notes: readonly Cell[], free: ReadonlyMap<number, Uint8Array>): Round | undefined {
  let best: Round | undefined;
  let most = 0;
  for (const [partials, isFree] of free) {
    const counts = new Uint16Array(partials);
    for (const { partial } of notes) {
      const at = remainder(partial, partials);
      if (!isFree[at] || ++counts[at]! <= most) continue;
      most = counts[at]!;
      best = { partials, at };
    }
  }
  return best;
}
