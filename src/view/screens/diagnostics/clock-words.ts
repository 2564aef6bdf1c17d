import type { ClockQuality } from '../../../clock/audio-clock-map';

/** What each quality of the clock map means for the player. */
export const CLOCK_WORDS: Readonly<Record<ClockQuality['name'], string>> = {
  none: 'Where a click is heard is not known before the sound has run for a moment.',
  verified: 'The browser tells when sound leaves the output, and clicks are placed by that.',
  unverified:
    'The browser does not tell when sound leaves the output: clicks are placed by the latency it reports, which may be off by tens of milliseconds. Setting the device offset by measurement makes up for it.',
  stalled: 'The audio clock stands still; clicks wait until it runs again.',
};
