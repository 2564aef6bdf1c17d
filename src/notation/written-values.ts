import type { Meter } from '../time/meter';

/** How the partials of a beat are written. */
export interface PartialValue {
  /** Flags of one partial: 0 a quarter, 1 an eighth, 2 a sixteenth, 3 a thirty-second. */
  readonly flags: number;
  /** Partials to the beat where that is not what the value says: a tuplet's number. */
  readonly tuplet: number | undefined;
  /** So many parts the value itself would divide the beat into: a tuplet's partials stand in the time of these. */
  readonly inTimeOf: number;
  /** What the whole beat is written as. */
  readonly beat: { readonly flags: number; readonly dotted: boolean };
}

/** A note or a rest as it is written. */
export interface WrittenValue {
  /** From the first partial of the beat. */
  readonly from: number;
  readonly partials: number;
  /** Below 0 for values longer than a quarter. */
  readonly flags: number;
  readonly dotted: boolean;
  readonly isRest: boolean;
}

/**
 * How partials of a beat are written. A tuplet is n in the time of the nearest lower power of two, three times one
 * in compound meters (common practice, no source); two in a dotted beat are written as eighths.
 *
 * @example partialValue({ unit: 4, compound: false }, 6) // => { flags: 2, tuplet: 6, inTimeOf: 4, beat: { flags: 0, dotted: false } }
 */
export function partialValue(
  { unit, compound }: Pick<Meter, 'unit' | 'compound'>,
  subdivision: number,
): PartialValue {
  const unitFlags = Math.log2(unit / 4);
  const units = compound ? 3 : 1;
  const halvings = Math.max(0, Math.floor(Math.log2(subdivision / units)));
  const ordinary = units * 2 ** halvings;
  return {
    flags: unitFlags + halvings,
    tuplet: ordinary === subdivision || subdivision === 1 ? undefined : subdivision,
    inTimeOf: subdivision === 1 ? 1 : ordinary,
    beat: compound ? { flags: unitFlags - 1, dotted: true } : { flags: unitFlags, dotted: false },
  };
}

/**
 * The notes and rests of a beat, or of the part of one from partial `from` to before `to`. A note lasts until the
 * next, as far as one value can say; rests fill the rest.
 *
 * @example writtenValues({ unit: 4, compound: false }, 4, [0, 3], 0, 4).map(({ flags, dotted }) => [flags, dotted]) // => [[1, true], [2, false]]
 */
export function writtenValues(
  meter: Pick<Meter, 'unit' | 'compound'>,
  subdivision: number,
  onsets: readonly number[],
  from: number,
  to: number,
): readonly WrittenValue[] {
  const { flags, beat } = partialValue(meter, subdivision);
  const isWhole = (at: number, partials: number) => at === 0 && partials === subdivision;
  const values: WrittenValue[] = [];
  const write = (at: number, partials: number, isRest: boolean) => {
    if (isWhole(at, partials)) return void values.push({ from: at, partials, ...beat, isRest });
    const dotted = partials % 3 === 0;
    const halves = Math.log2(dotted ? (partials * 2) / 3 : partials);
    values.push({ from: at, partials, flags: flags - halves, dotted, isRest });
  };
  const rest = (at: number, until: number, ascending: boolean) => {
    if (isWhole(at, until - at)) return write(at, until - at, true);
    const parts = powersOf(until - at);
    let place = at;
    for (const part of ascending ? parts.reverse() : parts) {
      write(place, part, true);
      place += part;
    }
  };
  rest(from, onsets[0] ?? to, true);
  onsets.forEach((at, i) => {
    const until = onsets[i + 1] ?? to;
    const length = isWhole(at, until - at) ? until - at : longestValue(until - at);
    write(at, length, false);
    rest(at + length, until, false);
  });
  return values;
}

/** The longest that one note, dotted or not, can say. */
function longestValue(partials: number): number {
  const plain = 2 ** Math.floor(Math.log2(partials));
  return partials >= plain * 1.5 && plain > 1 ? plain * 1.5 : plain;
}

/** A whole number as powers of two, greatest first. */
function powersOf(partials: number): number[] {
  const parts: number[] = [];
  for (let left = partials; left > 0; left -= parts.at(-1)!)
    parts.push(2 ** Math.floor(Math.log2(left)));
  return parts;
}
