import type { KitFault } from './kit-fault';

/** Whether more messages come than playing can make. */
export interface Flood {
  add(timeUs: number, status: number): void;
  report(): KitFault[];
}

/**
 * Half of what a MIDI cable carries: a note-on is 3 bytes of 320 µs, so 1041 a second (MIDI 1.0: 31,250
 * baud, 10 bits a byte). Chosen, not measured.
 */
export const FLOOD_FROM = 500;
const SECOND_US = 1_000_000;
const SYSTEM = 7;

/** By the upper three bits of the status byte. */
const KINDS = [
  { of: 'note-offs', advice: 'Look for a loop: the sound module’s MIDI must not come back to it.' },
  {
    of: 'note-ons',
    advice: 'Raise the thresholds of the pads on the sound module, and look for a MIDI loop.',
  },
  {
    of: 'pressure messages of single pads',
    advice: 'Switch off aftertouch for the cymbals that nobody chokes, or raise its threshold.',
  },
  {
    of: 'controller messages',
    advice:
      'A controller that never rests is usually a worn or badly plugged hi-hat pedal: clean and reseat it, calibrate it, and lower the sound module’s controller resolution if it has that setting.',
  },
  { of: 'program changes', advice: 'Switch off program changes on the sound module.' },
  { of: 'pressure messages', advice: 'Switch off channel pressure on the sound module.' },
  { of: 'pitch bends', advice: 'Switch off positional or bend messages on the sound module.' },
  {
    of: 'system messages',
    advice: 'Switch off MIDI clock and active sensing on the sound module.',
  },
] as const;

/** @example createFlood().report() // => [] */
export function createFlood(): Flood {
  const kinds = new Uint32Array(KINDS.length);
  const worstKinds = new Uint32Array(KINDS.length);
  /** Second the counts are of, messages in it, the most in any, seconds above the limit. */
  const [SECOND, NOW, WORST, FLOODED] = [0, 1, 2, 3] as const;
  const state = Float64Array.of(-Infinity, 0, 0, 0);
  return {
    add(timeUs, status) {
      const second = Math.floor(timeUs / SECOND_US);
      if (second > state[SECOND]!) {
        state[SECOND] = second;
        state[NOW] = 0;
        kinds.fill(0);
      }
      kinds[status >= 0xf0 ? SYSTEM : (status >> 4) & 7]!++;
      state[NOW]!++;
      if (state[NOW] === FLOOD_FROM) state[FLOODED]!++;
      if (state[NOW]! <= state[WORST]!) return;
      state[WORST] = state[NOW]!;
      worstKinds.set(kinds);
    },
    report() {
      if (state[FLOODED] === 0) return [];
      const most = worstKinds.indexOf(Math.max(...worstKinds));
      const { of, advice } = KINDS[most]!;
      return [
        {
          fault: 'flood',
          pad: undefined,
          count: state[FLOODED]!,
          sentence: `Up to ${state[WORST]!} messages came in one second, mostly ${of}; a MIDI cable carries about 1000, so strokes may come late or get lost.`,
          advice,
        },
      ];
    },
  };
}
