import { GENERAL_MIDI } from '../kit/built-in-kits';
import type { Voice } from '../phrase/model/voice';
import type { StrokeSink } from './stroke-source';

const NOTE_ON = 0x99;
/** The first pad of a voice is the one to strike. */
const NOTES: ReadonlyMap<Voice, number> = new Map(
  GENERAL_MIDI.pads.toReversed().map(({ voice, note }) => [voice, note]),
);

/** Sends a stroke as a General MIDI kit would; a voice that General MIDI lacks is not struck. */
export function strike(sink: StrokeSink, timeMs: number, voice: Voice, velocity: number): void {
  const note = NOTES.get(voice);
  if (note !== undefined) sink(timeMs, NOTE_ON, note, velocity);
}
