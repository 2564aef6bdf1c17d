import { unsaidBpm, writeMidiFile } from '../take/write-midi-file';
import { beats } from '../time/beats';
import { parseMeter } from '../time/meter';
import type { CaptureTake } from './capture-take';

/**
 * What was played to be written down, as a Standard MIDI File: every raw message when it came, controllers too; the meter,
 * and the tempo of the click where there was one, else none. Where something came before bar 1, as many bars of count-in
 * as it takes stand ahead of it.
 *
 * @throws RangeError when its meter is none.
 */
export function captureMidi(
  take: Pick<CaptureTake, 'messages' | 'clickBpm' | 'meter'>,
  title?: string,
): Uint8Array {
  const meter = parseMeter(take.meter);
  if (!meter) throw new RangeError(`no meter: ${take.meter}`);
  const bpm = take.clickBpm ?? unsaidBpm(meter);
  const barUs = (meter.beatsPerBar * 60e6) / bpm;
  const firstUs = take.messages.reduce((first, { timeUs }) => Math.min(first, timeUs), 0);
  return writeMidiFile({
    messages: take.messages,
    tempos: take.clickBpm === undefined ? [] : [{ fromBeat: beats(0), bpm }],
    meter,
    countInBars: Math.ceil(-firstUs / barUs),
    ...(title !== undefined && { title }),
  });
}
