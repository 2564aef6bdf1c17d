import { beats, type Beats } from './beats';

/**
 * A meter. `beatsPerBar` and `quartersPerBeat` follow how the trade counts: 6/8, 9/8, 12/8 (and the
 * same over 16) are felt in dotted beats; every other meter counts its lower figure.
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
