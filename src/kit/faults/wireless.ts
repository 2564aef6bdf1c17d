import type { KitFault } from './kit-fault';
import { countOf } from '../../words/words';

/** Whether time stamps come in the bunches of a radio link. */
export interface Wireless {
  /** The stamp of a stroke. */
  add(timeUs: number): void;
  /** The grid the stamps lie on, ms, and how plainly, 0 to 1; undefined when they lie on none. */
  readonly grid: { readonly ms: number; readonly clearness: number } | undefined;
  report(): KitFault[];
}

/**
 * Grids that are looked for, ms. BLE MIDI asks for a connection interval of at most 15 ms, and intervals
 * are multiples of 1.25 ms from 7.5 ms up. The longer ones are not radio but coarse clocks, whose
 * stamps lie on the shorter grids too.
 */
const GRIDS_MS = [7.5, 8.75, 10, 11.25, 12.5, 13.75, 15, 50 / 3, 20, 25, 50, 100] as const;
const LONGEST_RADIO_MS = 15;
/** Gaps that say something: not one message, and not a pause. Chosen, not measured. */
const GAP_FROM_US = 2_000;
const GAP_TO_US = 400_000;
const FEWEST_GAPS = 40;
/** Mean cosine of the gaps about the grid; a player's gaps stay below 0.3 for 40 of them. Chosen, not measured. */
const CLEAR_FROM = 0.5;
/** A longer grid is the true one when it is nearly as clear. */
const NEARLY = 0.8;

/** @example createWireless().grid // => undefined */
export function createWireless(): Wireless {
  const cosines = new Float64Array(GRIDS_MS.length);
  const turns = Float64Array.from(GRIDS_MS, (ms) => (2 * Math.PI) / (ms * 1000));
  /** Last stamp, gaps, strokes that shared their stamp with the one before. */
  const [LAST, GAPS, SHARED] = [0, 1, 2] as const;
  const state = Float64Array.of(-Infinity, 0, 0);
  const findGrid = () => {
    if (state[GAPS]! < FEWEST_GAPS) return undefined;
    const clearness = Array.from(cosines, (sum) => sum / state[GAPS]!);
    const clearest = Math.max(...clearness);
    if (clearest < CLEAR_FROM) return undefined;
    const at = clearness.findLastIndex((value) => value >= NEARLY * clearest);
    const ms = GRIDS_MS[at]!;
    return ms <= LONGEST_RADIO_MS ? { ms, clearness: clearness[at]! } : undefined;
  };
  return {
    add(timeUs) {
      const gapUs = timeUs - state[LAST]!;
      state[LAST] = timeUs;
      if (gapUs === 0) state[SHARED]!++;
      if (!(gapUs >= GAP_FROM_US && gapUs <= GAP_TO_US)) return;
      state[GAPS]!++;
      for (let grid = 0; grid < turns.length; grid++)
        cosines[grid]! += Math.cos(gapUs * turns[grid]!);
    },
    get grid() {
      return findGrid();
    },
    report() {
      const grid = findGrid();
      if (!grid) return [];
      const shared = state[SHARED]!;
      const bunched = shared > 0 ? `, and ${countOf(shared, 'stroke')} shared a time stamp` : '';
      return [
        {
          fault: 'wireless MIDI',
          pad: undefined,
          count: state[GAPS]!,
          sentence: `The time stamps come in steps of ${grid.ms} ms, as wireless MIDI does: every stroke is known to ±${(grid.ms / 2).toFixed(1)} ms at best${bunched}.`,
          advice:
            'Connect the sound module by USB or a MIDI cable, or widen the tolerance by as much.',
        },
      ];
    },
  };
}
