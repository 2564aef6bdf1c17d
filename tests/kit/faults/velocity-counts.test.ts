import { describe, expect, it } from 'vitest';
import { createVelocityCounts } from '../../../src/kit/faults/velocity-counts';

/** How many hot spots are told of a pad that sent these velocities so often. */
function hotSpots(...counts: readonly (readonly [velocity: number, times: number])[]): number {
  const velocities = createVelocityCounts();
  for (const [velocity, times] of counts)
    for (let i = 0; i < times; i++) velocities.add(38, velocity);
  return velocities.report(String).length;
}

describe('a hot spot', () => {
  it.each([
    ['three of 30 strokes at 127', hotSpots([70, 27], [127, 3]), 1],
    ['three of 31', hotSpots([70, 28], [127, 3]), 0],
    ['three of 29', hotSpots([70, 26], [127, 3]), 0],
    ['more at 127 than just below', hotSpots([70, 20], [126, 4], [127, 6]), 1],
    ['as many at 127 as just below', hotSpots([70, 20], [126, 5], [127, 5]), 0],
    ['as many as at ten below', hotSpots([70, 20], [117, 5], [127, 5]), 0],
    ['and as at eleven below', hotSpots([70, 20], [116, 5], [127, 5]), 1],
  ])('%s', (_, told, expected) => {
    expect(told).toBe(expected);
  });
});
