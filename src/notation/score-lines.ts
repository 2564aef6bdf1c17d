import { remainder } from '../time/whole';
import { beamGroup, type Beam } from './beams';
import { breakLines, cutBefore, type ColumnSpan } from './break-lines';
import type { ScoreContent } from './score-columns';
import { partialValue, writtenValues, type WrittenValue } from './written-values';

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
    ).map((beat) => writtenBeat(content, beat, line.from));
    return {
      ...line,
      values: beats.flatMap(({ values }) => values),
      beams: beats.flatMap(({ beams }) => beams),
      tuplets: beats.flatMap(({ tuplets }) => tuplets),
    };
  });
}

function writtenBeat(
  { columns, meter, subdivision }: ScoreContent,
  beat: ColumnSpan,
  first: number,
) {
  const start = remainder(columns[beat.from]!.partial, subdivision);
  const onsets = columns
    .slice(beat.from, beat.to)
    .flatMap(({ notes }, i) => (notes.length > 0 ? [start + i] : []));
  const end = start + beat.to - beat.from;
  const values = writtenValues(meter, subdivision, onsets, start, end);
  const { beams, flagged } = beamGroup(values);
  const columnOf = (i: number) => beat.from - first + values[i]!.from - start;
  const { tuplet } = partialValue(meter, subdivision);
  const isTuplet = tuplet !== undefined && values[0]!.partials < subdivision;
  const held = beams.some(
    ({ level, from, to }) => level === 1 && from === 0 && to === values.length - 1,
  );
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
    tuplets: isTuplet
      ? [
          {
            number: tuplet,
            fromColumn: beat.from - first,
            toColumn: beat.to - first - 1,
            bracket: !held,
          },
        ]
      : [],
  };
}
