import type { Voice } from '../phrase/model/voice';

const FOOT_VOICES: ReadonlySet<Voice> = new Set<Voice>([
  'bass drum',
  'hi-hat pedal',
  'hi-hat foot splash',
]);

/** Whether a foot strikes a voice. @example isFootVoice('bass drum') // => true */
export const isFootVoice = (voice: Voice): boolean => FOOT_VOICES.has(voice);
