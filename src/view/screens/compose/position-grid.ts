import { cycleStrokes, type CycleStroke } from '../../../phrase/edit/cycle-strokes';
import type { Phrase } from '../../../phrase/model/phrase';
import { stepText } from '../../../phrase/model/grouping-text';
import { positionColumns } from '../../../notation/position-columns';

/** What a row of the grid tells of its strokes. */
export type GridKind = 'sticking' | 'voice' | 'level';

export interface GridRow {
  readonly kind: GridKind;
  /** Which of the strokes that sound together, from 0. */
  readonly stroke: number;
  readonly name: string;
}

export interface GridColumn {
  /** 1-based partial of the cycle. */
  readonly position: number;
  readonly count: string;
  readonly onBeat: boolean;
  /** The whole step as a grouping writes it. */
  readonly sticking: string;
  readonly strokes: readonly CycleStroke[];
}

export interface PositionGrid {
  readonly rows: readonly GridRow[];
  readonly columns: readonly GridColumn[];
}

/** The first cycle of a layer (1-based), to be edited place by place: a row for sticking, and two for each stroke of a unison. */
export function positionGrid(phrase: Phrase, layer: number): PositionGrid {
  const strokes = cycleStrokes(phrase, layer);
  const columns = positionColumns(phrase, layer).map(({ position, count, onBeat }) => {
    const here = strokes.filter((stroke) => stroke.position === position);
    return { position, count, onBeat, sticking: stepText(here), strokes: here };
  });
  const together = Math.max(1, ...columns.map((column) => column.strokes.length));
  const rows: GridRow[] = [{ kind: 'sticking', stroke: 0, name: 'sticking' }];
  for (let stroke = 0; stroke < together; stroke++) {
    const which = stroke === 0 ? '' : `, stroke ${stroke + 1}`;
    rows.push({ kind: 'voice', stroke, name: `voice${which}` });
    rows.push({ kind: 'level', stroke, name: `level${which}` });
  }
  return { rows, columns };
}

/** What stands in a cell; undefined where there is no such stroke. */
export function cellText({ kind, stroke }: GridRow, column: GridColumn): string | undefined {
  if (kind === 'sticking') return column.sticking;
  return column.strokes[stroke]?.[kind];
}

/**
 * A step as a grouping writes it, from what was typed into a cell: nothing is a rest, and a letter on its own needs
 * no capital.
 *
 * @example stepTyped(' k ') // => 'K'
 */
export function stepTyped(text: string): string {
  const step = text.trim();
  if (step === '') return '-';
  return step.length === 1 ? step.toUpperCase() : step;
}

export interface GridCell {
  readonly row: number;
  readonly column: number;
}

/**
 * The cell that a key leads to, or undefined when it leads nowhere.
 *
 * @example nextCell({ row: 0, column: 1 }, 'End', false, { rows: 3, columns: 8 }) // => { row: 0, column: 7 }
 */
export function nextCell(
  { row, column }: GridCell,
  key: string,
  control: boolean,
  { rows, columns }: { readonly rows: number; readonly columns: number },
): GridCell | undefined {
  switch (key) {
    case 'ArrowRight':
      return { row, column: Math.min(columns - 1, column + 1) };
    case 'ArrowLeft':
      return { row, column: Math.max(0, column - 1) };
    case 'ArrowDown':
      return { row: Math.min(rows - 1, row + 1), column };
    case 'ArrowUp':
      return { row: Math.max(0, row - 1), column };
    case 'Home':
      return { row: control ? 0 : row, column: 0 };
    case 'End':
      return { row: control ? rows - 1 : row, column: columns - 1 };
    default:
      return undefined;
  }
}
