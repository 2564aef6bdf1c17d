import { remarkAt, remarkOnAll, type FileRemark } from '../../phrase/decompose/file-remark';
import { parseSwing, swings } from '../../phrase/model/swing';
import { tempoRange } from '../../phrase/model/tempo-range';
import type { Meter } from '../../time/meter';
import { clamp } from '../../time/whole';
import type { BarInTime } from './bars-in-time';

/** Beats a minute where the file says no tempo; common practice, no source. */
const PLAIN_TEMPO = 120;

/** Beats a minute; the first tempo of all. */
export function tempoOf(bars: readonly BarInTime[], meter: Meter, unread: FileRemark[]): number {
  const tempos = bars.flatMap(({ bar, number }) => bar.tempos.map((tempo) => ({ tempo, number })));
  const [first] = tempos;
  if (!first) {
    unread.push(remarkOnAll(`No tempo is given; ${PLAIN_TEMPO} beats a minute are taken.`));
    return PLAIN_TEMPO;
  }
  const other = tempos.find(({ tempo }) => tempo !== first.tempo);
  if (other)
    unread.push(
      remarkAt(other.number, 'the tempo changes, and a phrase has one; its first is taken'),
    );
  return Number((first.tempo / meter.quartersPerBeat.valueOf()).toFixed(6));
}

/** The tempo, or the nearest that a phrase may have. */
export function possibleTempo(
  tempoBpm: number,
  meter: Meter,
  subdivision: number,
  unread: FileRemark[],
): number {
  const { least, most } = tempoRange(meter, subdivision);
  const within = clamp(tempoBpm, least, most);
  if (within !== tempoBpm)
    unread.push(
      remarkOnAll(
        `The tempo of ${tempoBpm} is beyond ${least} to ${most}; ${within} beats a minute are taken.`,
      ),
    );
  return within;
}

/** The first swing of all, where it moves anything. */
export function swingOf(
  bars: readonly BarInTime[],
  meter: Meter,
  subdivision: number,
  unread: FileRemark[],
): string | undefined {
  const said = bars.find(({ bar }) => bar.swing !== undefined);
  const text = said?.bar.swing;
  if (!said || text === undefined || text === '1:1' || !swings(meter, subdivision))
    return undefined;
  if (parseSwing(text)) return text;
  unread.push(remarkAt(said.number, 'the swing is beyond 1:1 to 4:1 and is left out'));
  return undefined;
}
