import {
  remarkAt,
  remarkOnAll,
  tempoChanges,
  type FileRemark,
} from '../../phrase/decompose/file-remark';
import { parseSwing, swings } from '../../phrase/model/swing';
import type { Meter } from '../../time/meter';
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
  const bpm = Number((first.tempo / meter.quartersPerBeat.valueOf()).toFixed(6));
  const other = tempos.find(({ tempo }) => tempo !== first.tempo);
  if (other) unread.push(tempoChanges(other.number, bpm));
  return bpm;
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
