import type { Kit } from './kit';
import { createKitReader, STROKE } from './kit-reader';
import { setAside } from './set-aside';
import type { Stroke } from './stroke';
import { VOICES } from '../phrase/model/voice';
import type { RawMessage } from './raw-message';
import { VelocityRuns } from './velocity-runs';

export interface KitStrokes {
  /** In time order. */
  readonly strokes: readonly Stroke[];
  /** Per stroke 0 kept, 1 double trigger, 2 crosstalk. */
  readonly setAside: Uint8Array;
  /** Those whose pad sends one velocity whatever is struck. */
  readonly withoutLevel: ReadonlySet<Stroke>;
  /** How often each note number came that the kit has no pad for. */
  readonly unmapped: ReadonlyMap<number, number>;
}

/**
 * The strokes in a take's raw messages, as a kit reads them. Messages come in order of arrival, whatever their times:
 * how far the hi-hat is open is what its controller had said when a stroke arrived, and which velocities a pad has sent
 * what had come by then, which is all that is known while playing.
 *
 * @example readStrokes([{ timeUs: 5, status: 0x99, data1: 38, data2: 64 }], GENERAL_MIDI).strokes // => [{ timeUs: 5, voice: 'snare', velocity: 64, pad: 38 }]
 */
export function readStrokes(messages: readonly RawMessage[], kit: Kit): KitStrokes {
  const reader = createKitReader(kit);
  const runs = new VelocityRuns();
  const strokes: Stroke[] = [];
  const inFirstRun: Stroke[] = [];
  for (const { timeUs, status, data1, data2 } of messages) {
    if (reader.read(status, data1, data2) !== STROKE) continue;
    const { velocity, pad } = reader;
    const stroke = { timeUs, voice: VOICES[reader.voiceNumber]!, velocity, pad };
    strokes.push(stroke);
    if (runs.add(pad, velocity)) inFirstRun.push(stroke);
  }
  strokes.sort((a, b) => a.timeUs - b.timeUs);
  const unmapped = new Map([...reader.unmapped.entries()].filter(([, count]) => count > 0));
  const withoutLevel = new Set(inFirstRun.filter(({ pad }) => runs.isOfOneVelocity(pad)));
  return { strokes, setAside: setAside(strokes, kit), withoutLevel, unmapped };
}
