import generalMidi from '../../shared/kits/general-midi.json';
import { VOICES, type Voice } from '../phrase/model/voice';

interface KeyOfPad {
  readonly note: number;
  readonly voice: Voice;
}
const PADS = generalMidi.pads as readonly KeyOfPad[];

/** The voice of each percussion key of General MIDI Level 1. */
export const VOICE_OF_KEY: ReadonlyMap<number, Voice> = new Map(
  PADS.map(({ note, voice }) => [note, voice]),
);

/** The percussion key of each voice, the first of several; General MIDI has no foot splash and gets the pedal. */
export const KEY_OF_VOICE: ReadonlyMap<Voice, number> = new Map(
  VOICES.map((voice) => {
    const sought = voice === 'hi-hat foot splash' ? 'hi-hat pedal' : voice;
    return [voice, PADS.find((pad) => pad.voice === sought)!.note];
  }),
);
