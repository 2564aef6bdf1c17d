import { gridAt } from '../phrase/model/grid';
import type { Phrase } from '../phrase/model/phrase';
import type { Realignment } from '../phrase/layers/realignment';
import { syllable } from '../phrase/model/syllable';
import { mixedNumber } from '../time/beats';
import { remainder } from '../time/whole';

export interface StartRow {
  readonly cycle: number;
  readonly bar: number;
  readonly beat: string;
  /** The syllable it falls on. */
  readonly count: string;
  /** The position of the cycle that sounds on its bar's first beat. */
  readonly atBarLine: string;
}

/** The cycle starts of a layer (1-based) up to the realignment, counted both ways. */
export function startRows(
  phrase: Phrase,
  layer: number,
  { starts }: Realignment,
): readonly StartRow[] {
  const { subdivision, barPartials, displace } = gridAt(phrase, layer);
  return starts.map(({ cycle, bar, beat }) => {
    const partial = displace + (cycle - 1) * phrase.cycle;
    const barLine = (bar - 1) * barPartials - displace;
    return {
      cycle,
      bar,
      beat: mixedNumber(beat),
      count: syllable(phrase.meter, subdivision, partial),
      atBarLine: barLine < 0 ? 'nothing yet' : `position ${remainder(barLine, phrase.cycle) + 1}`,
    };
  });
}
