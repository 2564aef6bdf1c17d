import type { Faults } from '../../../../take/simulate';

export interface Dial {
  readonly key:
    | 'biasMs'
    | 'spreadMs'
    | 'driftMsPerMinute'
    | 'loudGhosts'
    | 'wrongVoices'
    | 'missed'
    | 'extra'
    | 'velocitySpread';
  readonly label: string;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** Shown as percent. */
  readonly share: boolean;
}

const ms = (key: Dial['key'], label: string, min: number, max: number): Dial => ({
  key,
  label,
  min,
  max,
  step: 1,
  share: false,
});
const share = (key: Dial['key'], label: string): Dial => ({
  key,
  label,
  min: 0,
  max: 1,
  step: 0.01,
  share: true,
});

export const DIALS: readonly Dial[] = [
  ms('biasMs', 'offset, ms', -60, 60),
  ms('spreadMs', 'spread, ms', 0, 60),
  ms('driftMsPerMinute', 'drift, ms a minute', -60, 60),
  share('loudGhosts', 'ghosts too loud'),
  share('wrongVoices', 'wrong voices'),
  share('missed', 'missed'),
  share('extra', 'extra strokes'),
  { key: 'velocitySpread', label: 'velocity spread', min: 0, max: 40, step: 1, share: false },
];

/** The faults with one dial moved; at 0 the fault is absent. */
export const withDial = (faults: Faults, key: Dial['key'], value: number): Faults =>
  value === 0 ? without(faults, key) : { ...faults, [key]: value };

/** The faults with the place lost after so many cycles, by so much; none at 0 cycles. */
export const withLostPlace = (faults: Faults, afterCycles: number, slipMs: number): Faults =>
  afterCycles === 0
    ? without(faults, 'lostPlace')
    : { ...faults, lostPlace: { afterCycles, slipMs } };

function without(faults: Faults, key: keyof Faults): Faults {
  const rest: { -readonly [K in keyof Faults]: Faults[K] } = { ...faults };
  delete rest[key];
  return rest;
}
