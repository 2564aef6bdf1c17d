import type { Kit } from './kit';
import { createKitReader, STROKE, UNMAPPED } from './kit-reader';
import { COMMAND } from './pad-fault';
import { setAside } from './set-aside';
import type { Stroke } from './stroke';
import { VOICES } from '../phrase/model/voice';
import type { RawMessage } from './raw-message';
import { TWIN_REACH } from './twin-stroke';
import { VelocityRuns } from './velocity-runs';

export interface KitStrokes {
  /** In time order. */
  readonly strokes: readonly Stroke[];
  /** Per stroke 0 kept, 1 double trigger, 2 crosstalk, 3 it gave a command. */
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
  const arrived: Arrived[] = [];
  /** By time, voice and velocity: the last to arrive. Exact: times in a take are below 2^37 µs. */
  const alike = new Map<number, number>();
  for (const { timeUs, status, data1, data2, isCommand = false } of messages) {
    const kind = reader.read(status, data1, data2);
    // A foot switch is no pad that the map lacks.
    if (isCommand && kind === UNMAPPED) reader.unmapped[data1]!--;
    if (kind !== STROKE) continue;
    const { velocity, pad } = reader;
    const struck = { timeUs, voice: VOICES[reader.voiceNumber]!, velocity, pad };
    const isFirst = runs.add(pad, velocity);
    const key = (timeUs * VOICES.length + reader.voiceNumber) * 128 + velocity;
    const last = alike.get(key);
    const twin =
      last !== undefined && arrived.length - last <= TWIN_REACH ? arrived[last] : undefined;
    alike.set(key, arrived.length);
    const stroke = twin ? { ...struck, pad: twin.stroke.pad } : struck;
    arrived.push({ stroke, pad, isCommand, isInFirstRun: twin ? twin.isInFirstRun : isFirst });
  }
  arrived.sort((a, b) => a.stroke.timeUs - b.stroke.timeUs);
  const unmapped = new Map([...reader.unmapped.entries()].filter(([, count]) => count > 0));
  const without = arrived.filter(
    ({ stroke, isInFirstRun }) => isInFirstRun && runs.isOfOneVelocity(stroke.pad),
  );
  // Faults are of the pad that was really struck.
  const aside = setAside(
    arrived.map(({ stroke, pad }) => ({ ...stroke, pad })),
    kit,
  );
  for (const [at, { isCommand }] of arrived.entries()) if (isCommand) aside[at] = COMMAND;
  return {
    strokes: arrived.map(({ stroke }) => stroke),
    setAside: aside,
    withoutLevel: new Set(without.map(({ stroke }) => stroke)),
    unmapped,
  };
}

/** A stroke, the pad that was struck, and whether it belongs to the first run of the pad it is taken for. */
interface Arrived {
  readonly stroke: Stroke;
  readonly pad: number;
  readonly isCommand: boolean;
  readonly isInFirstRun: boolean;
}
