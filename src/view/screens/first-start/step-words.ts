import type { FirstStep, StepState } from '../../../practice/first-start/first-start.svelte';

export const STEP_NAMES: Readonly<Record<FirstStep, string>> = {
  kit: 'Kit',
  pads: 'Pads',
  levels: 'Levels',
  offset: 'Offset',
  play: 'Play',
};

export const STATE_WORDS: Readonly<Record<StepState, string>> = {
  done: 'done',
  skipped: 'skipped',
  open: 'later',
};
