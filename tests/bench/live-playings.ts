import { LOOSE_PLANK, STORM_TIDE, TWO_LAMPS } from './bench-phrases';
import type { LivePlaying } from './live-take-bench';

const EVEN = { spreadMs: 10, velocitySpread: 6 };

export const LIVE_PLAYINGS: readonly LivePlaying[] = [
  { name: 'even: four limbs, 120 bpm', file: TWO_LAMPS, faults: EVEN },
  { name: 'dense: 8 voices, 300 bpm', file: STORM_TIDE, faults: EVEN },
  {
    name: 'sloppy: 1 voice, 300 bpm',
    file: LOOSE_PLANK,
    faults: { spreadMs: 25, velocitySpread: 6 },
  },
  {
    name: 'even, 1 stroke in 40 triggers twice',
    file: TWO_LAMPS,
    faults: EVEN,
    doubleTriggerEvery: 40,
  },
  {
    name: 'dense, 1 stroke in 40 triggers twice',
    file: STORM_TIDE,
    faults: EVEN,
    doubleTriggerEvery: 40,
  },
];
