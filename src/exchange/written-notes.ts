import { GENERAL_MIDI } from '../kit/built-in-kits';
import { isNoteOn } from '../kit/raw-message';
import type { Voice } from '../phrase/model/voice';
import type { MidiFile } from '../take/midi-file';
import { writtenHand, type WrittenHand } from './sticking-lyric';

/** A note of a drum part as its file has it. */
export interface WrittenNote extends WrittenHand {
  readonly tick: number;
  readonly voice: Voice;
  /** 1 to 127. */
  readonly velocity: number;
}

/** The notes of a file that can be those of a phrase, in time order, and the rest. */
export interface WrittenNotes {
  readonly notes: readonly WrittenNote[];
  /** Ticks of notes on channel 10 that General MIDI has no drum for. */
  readonly unmapped: readonly number[];
  /** Ticks of notes on other channels. */
  readonly elsewhere: readonly number[];
}

/** Channel 10. */
const PERCUSSION = 9;
const VOICE_OF: ReadonlyMap<number, Voice> = new Map(
  GENERAL_MIDI.pads.map(({ note, voice }) => [note, voice]),
);

/** The percussion in a file: the notes of channel 10, by General MIDI's keys. */
export function writtenNotes({ messages }: Pick<MidiFile, 'messages'>): WrittenNotes {
  const notes: WrittenNote[] = [];
  const unmapped: number[] = [];
  const elsewhere: number[] = [];
  for (const { tick, status, data1, data2, lyric } of messages) {
    if (!isNoteOn(status, data2)) continue;
    const voice = VOICE_OF.get(data1);
    if ((status & 15) !== PERCUSSION) elsewhere.push(tick);
    else if (voice === undefined) unmapped.push(tick);
    else notes.push({ tick, voice, velocity: data2, ...writtenHand(lyric, voice) });
  }
  return { notes, unmapped, elsewhere };
}
