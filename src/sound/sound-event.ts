import type { Voice } from '../phrase/model/voice';

/** The clicks: of a bar's first beat, of any other beat, of a cycle's start. */
export const CLICK_SOUNDS = ['bar', 'beat', 'cycle'] as const;
export type ClickSound = (typeof CLICK_SOUNDS)[number];

/** What is counted aloud: beats, and the syllables between them. */
export const COUNT_WORDS = [
  ...(['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'] as const),
  ...(['&', 'e', 'a', 'trip', 'let'] as const),
] as const;
export type CountWord = (typeof COUNT_WORDS)[number];

/** Something to be heard at a moment. Times are integer microseconds from bar 1 beat 1, the count-in negative. */
export type SoundEvent =
  | {
      readonly kind: 'click';
      readonly timeUs: number;
      readonly sound: ClickSound;
      /** 1 to 127. */
      readonly velocity: number;
    }
  | {
      readonly kind: 'count';
      /** When its beat falls, which is some way into the word. */
      readonly timeUs: number;
      readonly word: CountWord;
      readonly isShort: boolean;
      /** 1 to 127. */
      readonly velocity: number;
    }
  | {
      readonly kind: 'voice';
      readonly timeUs: number;
      readonly voice: Voice;
      /** 1 to 127. */
      readonly velocity: number;
    };

/**
 * Gain of a velocity: (v/127)², so that level in dB is 40·log10(v/127). Source: General MIDI Level 1
 * Developer Guidelines, p. 9; the default velocity curve of SoundFont 2.04, 8.4.1, is the same.
 *
 * @example velocityGain(127) // => 1
 */
export const velocityGain = (velocity: number): number => (velocity / 127) ** 2;
