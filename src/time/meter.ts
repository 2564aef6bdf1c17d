import { beats, type Beats } from './beats';

/**
 * A meter, 1 to 32 over 4, 8 or 16. `beatsPerBar` and `quartersPerBeat` follow how the trade counts: over 8 and 16 a
 * number above 3 that three divides is felt in dotted beats (6/8 two, 9/8 three, 12/8 four, 15/8 five, up to 30/8
 * ten); every other meter, 3/8 among them, counts its lower figure.
 */
export interface Meter {
  readonly count: number;
  readonly unit: 4 | 8 | 16;
  readonly compound: boolean;
  readonly beatsPerBar: number;
  readonly quartersPerBeat: Beats;
}

/**
 * The meter written as text, or undefined when it is not n/4, n/8 or n/16 with n from 1 to 32.
 *
 * @example parseMeter('6/8')?.beatsPerBar // => 2
 */
export function parseMeter(text: string): Meter | undefined {
  const match = /^([1-9]\d?)\/(4|8|16)$/.exec(text);
  if (!match) return undefined;
  const count = Number(match[1]);
  if (count > 32) return undefined;
  const unit = Number(match[2]) as 4 | 8 | 16;
  const compound = unit !== 4 && count > 3 && count % 3 === 0;
  const unitQuarters = beats(4, unit);
  return {
    count,
    unit,
    compound,
    beatsPerBar: compound ? count / 3 : count,
    quartersPerBeat: compound ? unitQuarters.mul(3) : unitQuarters,
  };
}
