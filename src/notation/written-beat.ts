import type { Meter } from '../time/meter';
import { gcd } from '../time/whole';
import { beamGroup, type BeamGroup } from './beams';
import { partialValue, writtenValues, type WrittenValue } from './written-values';

/** So many written values in the time of so many others. */
export interface Tuplet {
  readonly number: number;
  readonly inTimeOf: number;
  /** A beam over all of it needs no bracket. */
  readonly bracket: boolean;
}

/** A beat, or a part of one, as it is written. */
export interface WrittenBeat extends BeamGroup {
  readonly values: readonly WrittenValue[];
  readonly tuplet: Tuplet | undefined;
}

/**
 * Writes the beat, or the part of one from partial `from` to before `to`, in which notes start at `onsets` (partials
 * from the beat). A beat that would be a tuplet is written in the fewest parts that its onsets need: the halves of a
 * sextuplet are eighths.
 *
 * @example writtenBeat({ unit: 4, compound: false }, 3, [0, 2], 0, 3).tuplet // => { number: 3, inTimeOf: 2, bracket: true }
 */
export function writtenBeat(
  meter: Pick<Meter, 'unit' | 'compound'>,
  subdivision: number,
  onsets: readonly number[],
  from: number,
  to: number,
): WrittenBeat {
  const isWholeTuplet =
    from === 0 && to === subdivision && partialValue(meter, subdivision).tuplet !== undefined;
  const step = isWholeTuplet ? onsets.reduce(gcd, subdivision) : 1;
  const parts = subdivision / step;
  const values = writtenValues(
    meter,
    parts,
    onsets.map((at) => at / step),
    from / step,
    to / step,
  );
  const group = beamGroup(values);
  const { tuplet, inTimeOf } = partialValue(meter, parts);
  const isHeld = group.beams.some(
    (beam) => beam.level === 1 && beam.from === 0 && beam.to === values.length - 1,
  );
  return {
    ...group,
    values: values.map((value) => ({
      ...value,
      from: value.from * step,
      partials: value.partials * step,
    })),
    tuplet:
      tuplet !== undefined && values[0]!.partials < parts
        ? { number: tuplet, inTimeOf, bracket: !isHeld }
        : undefined,
  };
}
