import { freeHand } from '../model/limb';
import { noteTest, type NotePlace } from '../layers/matches-selector';
import type { Change, Selector } from '../model/phrase';
import { graceCells, type Aspect, type Cell, type Sheet, type NoteAspects } from './cell';
import type { Selection } from './find-selector';

/** Changes found so far and the notes as they leave them. */
export interface AppliedChanges {
  readonly changes: readonly Change[];
  readonly cells: readonly Cell[];
}

const GRACES = ['none', 'flam', 'drag'] as const;

/** The change that gives what was chosen a value, and the notes after it. */
export function applySelection<A extends Aspect>(
  cells: readonly Cell[],
  { where, areAccents = false }: Selection,
  aspect: A,
  value: NoteAspects[A],
  sheet: Sheet,
): AppliedChanges {
  const isSelected = noteTest(where, sheet.subdivision);
  const selected = (cell: Cell) => isSelected(cell, cell.isGrace ? cell : undefined, placeOf(cell));
  const given = aspect === 'grace' ? GRACES[value as number] : value;
  const change: Change = areAccents
    ? accentChange(where)
    : { kind: 'set', where, set: { [aspect]: given } };
  return { changes: [change], cells: changed(cells, selected, aspect, value) };
}

/** Accents on places that come round are a change of their own. */
function accentChange({ every, ...where }: Selector): Change {
  const { partials, at } = every!;
  return { kind: 'accentEvery', accentEvery: partials, from: at[0]!, where };
}

function changed<A extends Aspect>(
  cells: readonly Cell[],
  selected: (cell: Cell) => boolean,
  aspect: A,
  value: NoteAspects[A],
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
      const hand = freeHand(cells[i]!.limb);
      after.push(
        ...graceCells(
          after[i]!,
          Array.from({ length: value as number }, () => hand),
        ),
      );
    }
  return after;
}

/** What a selector asks of a note's place. */
const placeOf = ({ nth, partial, partialOfBar, isPickup }: Cell): NotePlace => ({
  nth,
  partial: isPickup ? undefined : partial,
  partialOfBar,
});
