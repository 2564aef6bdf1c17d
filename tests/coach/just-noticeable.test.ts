import { expect, it } from 'vitest';
import { justNoticeableMs } from '../../src/coach/just-noticeable';

it.each([
  [239.99, 6],
  [240, 6],
  [240.4, 6.01],
])('of strokes %d ms apart: %d ms', (intervalMs, ms) => {
  expect(justNoticeableMs(intervalMs)).toBeCloseTo(ms, 9);
});

// Friberg & Sundberg 1995, JASA 98:2524-2531 [F]: 6 ms below about 240 ms, 2.5 % above. Table [C]:
// quarter, eighth, eighth triplet, sixteenth, quintuplet, sextuplet.
it.each([
  [60, [25, 12.5, 8.33, 6.25, 6, 6]],
  [80, [18.75, 9.38, 6.25, 6, 6, 6]],
  [100, [15, 7.5, 6, 6, 6, 6]],
  [120, [12.5, 6.25, 6, 6, 6, 6]],
  [160, [9.38, 6, 6, 6, 6, 6]],
  [200, [7.5, 6, 6, 6, 6, 6]],
])('at %i bpm', (bpm, limits) => {
  [1, 2, 3, 4, 5, 6].forEach((perBeat, i) => {
    const limit = justNoticeableMs(60_000 / bpm / perBeat);
    expect(Math.abs(limit - limits[i]!), `${perBeat} a beat`).toBeLessThanOrEqual(0.0051);
  });
});
