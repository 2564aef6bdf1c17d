import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import { createVelocityCounts } from '../../../src/kit/faults/velocity-counts';

type Counts = readonly (readonly [velocity: number, times: number])[];

/** The faults that are told of a pad that sent these velocities so often. */
function faultsOf(note: number, counts: Counts) {
  const velocities = createVelocityCounts(GENERAL_MIDI);
  for (const [velocity, times] of counts)
    for (let i = 0; i < times; i++) velocities.add(note, velocity);
  return velocities.report(String).map(({ fault, count }) => [fault, count]);
}
const hotSpots = (...counts: Counts) =>
  faultsOf(38, counts).filter(([fault]) => fault === 'hot spot').length;

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

describe('a pad that sends one velocity', () => {
  it.each<[string, number, Counts, unknown[]]>([
    ['of eleven strokes nothing is said', 38, [[64, 11]], []],
    ['of twelve it is', 38, [[64, 12]], [['one velocity', 12]]],
    ['another stroke ends it', 38, [[64, 12], [65, 1]], []], // prettier-ignore
    ['from the other velocity on', 38, [[65, 1], [64, 40]], []], // prettier-ignore
    ['at 127 it is a hot spot at first', 38, [[127, 47]], [['hot spot', 47]]],
    ['and one velocity from 48 on, told once', 38, [[127, 48]], [['one velocity', 48]]],
    ['a pedal that the foot steps on is asked for no level', 44, [[64, 40]], []],
  ])('%s', (_, note, counts, expected) => {
    expect(faultsOf(note, counts)).toEqual(expected);
  });
});
