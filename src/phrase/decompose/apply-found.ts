import { remainder } from '../../time/whole';
import type { Change, Where } from '../phrase';
import { graceCells, type Aspect, type Cell, type Sheet, type Wants } from './cell';
import type { Chosen } from './find-where';

/** Changes found so far and the notes as they leave them. */
export interface Laid {
  readonly changes: readonly Change[];
  readonly cells: readonly Cell[];
}

const GRACES = ['none', 'flam', 'drag'] as const;

/** The change that gives what was chosen a value, and the notes after it. */
export function applyFound<A extends Aspect>(
  cells: readonly Cell[],
  { where, accents }: Chosen,
  aspect: A,
  value: Wants[A],
  sheet: Sheet,
): Laid {
  const selected = (cell: Cell) =>
    matches(where, cell, sheet, false) &&
    (!accents ||
      (!cell.isPickup && remainder(cell.partial, accents.accentEvery) === accents.from - 1));
  const given = aspect === 'grace' ? GRACES[value as number] : value;
  const change: Change = accents
    ? { kind: 'accentEvery', ...accents, where }
    : { kind: 'set', where, set: { [aspect]: given } };
  return { changes: [change], cells: changed(cells, selected, aspect, value) };
}

function changed<A extends Aspect>(
  cells: readonly Cell[],
  selected: (cell: Cell) => boolean,
  aspect: A,
  value: Wants[A],
): Cell[] {
  const isChosen = cells.map(selected);
  const after = cells.map((cell, i) =>
    isChosen[i] || (aspect === 'voice' && cell.isGrace && isChosen[cell.main])
      ? { ...cell, [aspect]: value }
      : cell,
  );
  if (aspect !== 'grace') return after;
  for (let i = 0; i < cells.length; i++)
    if (isChosen[i] && cells[i]!.grace !== value && !cells[i]!.silent) {
      const otherHand = cells[i]!.limb === 'R' ? 'L' : 'R';
      after.push(
        ...graceCells(
          after[i]!,
          Array.from({ length: value as number }, () => otherHand),
        ),
      );
    }
  return after;
}

/** The same as for a whole phrase: main notes unless told otherwise, and only what is written inside `not`. */
function matches(where: Where, cell: Cell, sheet: Sheet, grace: boolean | undefined): boolean {
  const wanted = where.grace ?? grace;
  const { partialOfBar } = cell;
  return (
    (wanted === undefined || wanted === cell.isGrace) &&
    (where.limb === undefined || where.limb === cell.limb) &&
    (where.voice === undefined || where.voice === cell.voice) &&
    (where.level === undefined || where.level === cell.level) &&
    (where.positions === undefined || where.positions.includes(cell.position)) &&
    (where.nth === undefined || where.nth.includes(cell.nth)) &&
    (where.beats === undefined ||
      where.beats.some((beat) => beat.sub(1).mul(sheet.subdivision).equals(partialOfBar))) &&
    (where.every === undefined ||
      (!cell.isPickup &&
        where.every.at.includes(remainder(cell.partial, where.every.partials) + 1))) &&
    (where.not === undefined || !matches(where.not, cell, sheet, undefined))
  );
}
