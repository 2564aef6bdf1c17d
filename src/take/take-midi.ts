import { alignedMessages } from '../kit/aligned-messages';
import { parsePhrase } from '../phrase/file/parse-phrase';
import { parseMeter } from '../time/meter';
import { layerMark } from './midi-marks';
import type { Take } from './take';
import { writeMidiFile } from './write-midi-file';

/** Of a take whose phrase cannot be read. */
const USUAL_METER = '4/4';

/**
 * A take as a Standard MIDI File: every raw message when it was played, the rig's offset taken off, controllers too;
 * tempo, meter, a marker at the count-in and where each layer begins. `assess` judges it as it judges the take's JSON, to
 * half a tick, given the tolerance, reach and kit that only the JSON holds.
 *
 * @example takeMidi({ messages: [], deviceOffsetMs: 0, phraseText: '', passages: [{ fromBar: 1, layer: 1 }], tempos: [{ fromBeat: beats(0), bpm: 120 }], countInBars: 0 }).length // => 41
 */
export function takeMidi(
  take: Pick<
    Take,
    | 'messages'
    | 'commands'
    | 'deviceOffsetMs'
    | 'phraseText'
    | 'passages'
    | 'tempos'
    | 'countInBars'
    | 'player'
  >,
): Uint8Array {
  const parsed = parsePhrase(take.phraseText);
  const phrase = parsed.ok ? parsed.value : undefined;
  return writeMidiFile({
    messages: alignedMessages(take),
    tempos: take.tempos,
    meter: phrase?.meter ?? parseMeter(USUAL_METER)!,
    countInBars: take.countInBars,
    player: take.player,
    ...(phrase && {
      title: phrase.title,
      marks: take.passages.map(({ fromBar, layer }) => ({
        bar: fromBar,
        text: layerMark(layer, phrase.layers[layer - 1]?.name ?? ''),
      })),
    }),
  });
}
