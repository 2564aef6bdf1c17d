import type { Kit } from '../kit';
import type { KitFault } from './kit-fault';
import { countOf } from '../../words/words';

/**
 * Whether the controller of the hi-hat follows the foot. Nobody sees the foot: one that presses a closed hi-hat along, or is
 * not on it, looks like a controller that stays where it is. So sentences say what was seen, and the advice what it means
 * if the foot did move. `npm run -s claims` counts how often that is asked of a controller that follows.
 */
export interface OpeningWatch {
  /** A message of the controller, its value 0 to 127. */
  moved(value: number): void;
  struck(note: number): void;
  report(): KitFault[];
}

/** Chosen, not measured: twice the 6 of the longest such stretch in ten real performances (Groove MIDI Dataset). */
const FEWEST_CHICKS = 12;
/** Chosen, not measured. */
const FEWEST_STROKES = 10;
const NARROW_CHICKS = 8;
/** A controller that moves less than this, as a share of its range, is told. Chosen, not measured. */
export const NARROW_RANGE = 0.25;

/** @example createOpeningWatch(GENERAL_MIDI).report() // => [] */
export function createOpeningWatch(kit: Kit): OpeningWatch {
  const pedal = new Uint8Array(128);
  const follows = new Uint8Array(128);
  for (const pad of kit.pads) {
    if (pad.voice === 'hi-hat pedal') pedal[pad.note] = 1;
    if (pad.followsOpening === true) follows[pad.note] = 1;
  }
  /** Last, lowest and highest value; strokes on following pads, chicks, chicks since it last moved, the most of those. */
  const [LAST, LOW, HIGH, STROKES, CHICKS, STILL, MOST_STILL] = [0, 1, 2, 3, 4, 5, 6] as const;
  const state = Int32Array.of(-1, 127, 0, 0, 0, 0, 0);
  const fault = (count: number, sentence: string, advice: string): KitFault => ({
    fault: 'hi-hat controller',
    pad: undefined,
    count,
    sentence,
    advice,
  });
  return {
    moved(value) {
      if (value !== state[LAST]) state[STILL] = 0;
      state[LAST] = value;
      if (value < state[LOW]!) state[LOW] = value;
      if (value > state[HIGH]!) state[HIGH] = value;
    },
    struck(note) {
      if (follows[note] === 1) state[STROKES]!++;
      if (pedal[note] === 0) return;
      state[CHICKS]!++;
      state[STILL]!++;
      if (state[STILL]! > state[MOST_STILL]!) state[MOST_STILL] = state[STILL]!;
    },
    report() {
      const still = state[MOST_STILL]!;
      const hasSpoken = state[LAST]! >= 0;
      if (!hasSpoken)
        return state[STROKES]! >= FEWEST_STROKES
          ? [
              fault(
                state[STROKES]!,
                `Controller ${kit.opening.controller} has not spoken in ${countOf(state[STROKES]!, 'hi-hat stroke')}.`,
                'If your foot moved the pedal, open and closed cannot be told apart: look whether the pedal’s cable is in the socket for the hi-hat controller, and whether the sound module sends that controller over MIDI.',
              ),
            ]
          : [];
      if (still >= FEWEST_CHICKS)
        return [
          fault(
            still,
            `The pedal was stepped on ${countOf(still, 'time')} while controller ${kit.opening.controller} stayed where it was.`,
            'If your foot came up in between, the controller is stuck: calibrate the hi-hat’s offset on the sound module with the pedal up, clean or reseat the controller’s plug, and look whether the stand’s clutch holds the upper pad.',
          ),
        ];
      const range = (state[HIGH]! - state[LOW]!) / 127;
      if (state[CHICKS]! >= NARROW_CHICKS && range < NARROW_RANGE)
        return [
          fault(
            state[CHICKS]!,
            `Controller ${kit.opening.controller} uses only ${Math.round(range * 100)} % of its range.`,
            'If your foot went all the way, open and closed lie close together: calibrate the hi-hat’s offset and pedal sensitivity on the sound module, and adjust the clutch.',
          ),
        ];
      return [];
    },
  };
}
