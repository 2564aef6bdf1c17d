import { LOOSE_PLANK, STORM_TIDE, TWO_LAMPS } from './bench-phrases';
import type { KitFault, LivePlaying } from './live-take-bench';

const EVEN = { spreadMs: 10, velocitySpread: 6 };

/** The pad answers once more. Chosen, not measured, to lie well inside the retrigger time. */
const DOUBLE_TRIGGER: KitFault = { every: 40, afterUs: 8_000, share: 0.3 };
/** A pad that nobody strikes (the cowbell's note) speaks just before the struck one. Chosen, not measured. */
const CROSSTALK: KitFault = { every: 40, afterUs: -3_000, share: 0.1, pad: 56 };

export const LIVE_PLAYINGS: readonly LivePlaying[] = [
  { name: 'even: four limbs, 120 bpm', file: TWO_LAMPS, faults: EVEN },
  { name: 'dense: 8 voices, 300 bpm', file: STORM_TIDE, faults: EVEN },
  {
    name: 'sloppy: 1 voice, 300 bpm',
    file: LOOSE_PLANK,
    faults: { spreadMs: 25, velocitySpread: 6 },
  },
  {
    name: 'even, 1 in 40 a double trigger',
    file: TWO_LAMPS,
    faults: EVEN,
    kitFault: DOUBLE_TRIGGER,
  },
  {
    name: 'dense, 1 in 40 a double trigger',
    file: STORM_TIDE,
    faults: EVEN,
    kitFault: DOUBLE_TRIGGER,
  },
  { name: 'even, 1 in 40 with crosstalk', file: TWO_LAMPS, faults: EVEN, kitFault: CROSSTALK },
  { name: 'dense, 1 in 40 with crosstalk', file: STORM_TIDE, faults: EVEN, kitFault: CROSSTALK },
];
