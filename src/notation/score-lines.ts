import { remainder } from '../time/whole';
import type { Beam } from './beams';
import { breakLines, cutBefore, type ColumnSpan } from './break-lines';
import type { ScoreContent } from './score-columns';
import { writtenBeat } from './written-beat';
import type { WrittenValue } from './written-values';

/** A note or a rest at its column, counted from the line's first. */
export interface LineValue extends WrittenValue {
  readonly column: number;
  /** Carries flags of its own. */
  readonly flagged: boolean;
}

/** A beam in columns of its line. */
export interface LineBeam extends Beam {
  readonly fromColumn: number;
  readonly toColumn: number;
}

/** A tuplet's number over its columns; without a bracket where a beam holds it together. */
export interface LineTuplet {
  readonly number: number;
  readonly fromColumn: number;
  readonly toColumn: number;
  readonly bracket: boolean;
}

/** One line of a wrapped score line. */
export interface ScoreLineContent extends ColumnSpan {
  readonly values: readonly LineValue[];
  readonly beams: readonly LineBeam[];
  readonly tuplets: readonly LineTuplet[];
}

/** A score line as it is written, wrapped into lines of at most `capacity` columns. */
export function scoreLines(content: ScoreContent, capacity: number): readonly ScoreLineContent[] {
  return breakLines(content.columns, capacity).map((line) => {
    const beats = cutBefore(
      line,
      (i) => content.columns[i]!.onBeat || i === content.pickupColumns,
    ).map((beat) => lineBeat(content, beat, line.from));
    return {
      ...line,
      values: beats.flatMap(({ values }) => values),
      beams: beats.flatMap(({ beams }) => beams),
      tuplets: beats.flatMap(({ tuplets }) => tuplets),
    };
  });
}

function lineBeat({ columns, meter, subdivision }: ScoreContent, beat: ColumnSpan, first: number) {
  const start = remainder(columns[beat.from]!.partial, subdivision);
  const onsets = columns
    .slice(beat.from, beat.to)
    .flatMap(({ notes }, i) => (notes.length > 0 ? [start + i] : []));
  const end = start + beat.to - beat.from;
  const { values, beams, flagged, tuplet } = writtenBeat(meter, subdivision, onsets, start, end);
  const columnOf = (i: number) => beat.from - first + values[i]!.from - start;
  return {
    values: values.map((value, i): LineValue => ({
      ...value,
      column: columnOf(i),
      flagged: flagged.includes(i),
    })),
    beams: beams.map((beam): LineBeam => ({
      ...beam,
      fromColumn: columnOf(beam.from),
      toColumn: columnOf(beam.to),
    })),
    tuplets: tuplet
      ? [
          {
            number: tuplet.number,
            fromColumn: beat.from - first,
            toColumn: beat.to - first - 1,
            bracket: tuplet.bracket,
          },
        ]
      : [],
  };
}
