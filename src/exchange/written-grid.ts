import { parseSwing, swings, swungPartial } from '../phrase/model/swing';
import type { SwingRatio } from '../phrase/model/phrase';
import { MAX_SUBDIVISION } from '../phrase/model/phrase-file';
import type { Meter } from '../time/meter';

/** A way to divide the beat. */
export interface Division {
  readonly subdivision: number;
  readonly swing: SwingRatio | undefined;
}

const GRID_TEXT = /^(\d{1,2}) partials? a beat(?:, swing (\d{1,3}:\d{1,3}))?$/;

/** What a text of this program says of the grid; undefined where it says nothing, or what no phrase has. */
export function divisionInText(text: string): Division | undefined {
  const [, partials, ratio] = GRID_TEXT.exec(text) ?? [];
  const subdivision = Number(partials);
  if (!(subdivision >= 1 && subdivision <= MAX_SUBDIVISION)) return undefined;
  return { subdivision, swing: ratio === undefined ? undefined : parseSwing(ratio) };
}

const straight = (subdivision: number): Division => ({ subdivision, swing: undefined });
const swung = (subdivision: number, ratio: string): Division => ({
  subdivision,
  swing: parseSwing(ratio)!,
});

/**
 * What is tried, the plainest first: swing where the trade writes it, so that eighths at 2:1 are no triplet that never
 * plays its middle. Common practice, no source.
 */
const DIVISIONS: readonly Division[] = [
  ...[1, 2].map(straight),
  swung(2, '2:1'),
  ...[3, 4].map(straight),
  swung(4, '2:1'),
  ...[6, 8].map(straight),
  swung(2, '3:2'),
  ...[5, 7, 12].map(straight),
  swung(4, '3:2'),
  ...[9, 10, 11].map(straight),
];

/** The divisions that a file may be written in, the one that it names first. */
export const likelyDivisions = (
  meter: Meter,
  inText: Division | undefined,
): readonly Division[] => [
  ...(inText ? [inText] : []),
  ...DIVISIONS.filter(({ swing, subdivision }) => !swing || swings(meter, subdivision)),
];

/**
 * Which partial, counted from beat 0, lies at a beat, to within `tolerance` beats; undefined where none does.
 *
 * @example partialsOf({ subdivision: 3, swing: undefined }, 0.01)(1.334) // => 4
 */
export function partialsOf(
  { subdivision, swing }: Division,
  tolerance: number,
): (beat: number) => number | undefined {
  const places = Array.from({ length: subdivision + 1 }, (_, partial) =>
    swing ? swungPartial(partial, subdivision, swing).valueOf() : partial / subdivision,
  );
  return (beat) => {
    const whole = Math.floor(beat);
    const inBeat = places.findIndex((place) => Math.abs(beat - whole - place) <= tolerance);
    return inBeat < 0 ? undefined : whole * subdivision + inBeat;
  };
}
