import { expect, it } from 'vitest';
import { withUpcoming, type Upcoming } from '../../src/live/upcoming';
import { beats } from '../../src/time/beats';
import { steadyTempo, tempoMap } from '../../src/time/tempo';

const MINUTE = 60_000_000;

it('keeps a layer to come when a tempo is chosen, and moves its bar line with the tempo', () => {
  // At 60 in 4/4 bar 3 begins after 8 s; with 120 from bar 2 (4 s) on, after 6 s.
  const layer: Upcoming = { layer: 2, bar: 3, atUs: (8 * MINUTE) / 60 };
  const tempo = tempoMap([
    { fromBeat: beats(0), bpm: 60 },
    { fromBeat: beats(4), bpm: 120 },
  ]);
  expect(withUpcoming([layer], { bpm: 120, atUs: 4_000_000 }, tempo, 4)).toEqual([
    { bpm: 120, atUs: 4_000_000 },
    { layer: 2, bar: 3, atUs: 6_000_000 },
  ]);
});

it('keeps a tempo to come when a layer is chosen, in time order', () => {
  const bpm: Upcoming = { bpm: 90, atUs: 9_000_000 };
  expect(withUpcoming([bpm], { layer: 3, bar: 2, atUs: 4_000_000 }, steadyTempo(60), 4)).toEqual([
    { layer: 3, bar: 2, atUs: 4_000_000 },
    bpm,
  ]);
});

it('lets a tempo replace the one that would have begun at the same moment or later', () => {
  const known: Upcoming[] = [
    { bpm: 90, atUs: 2_000_000 },
    { bpm: 95, atUs: 4_000_000 },
    { bpm: 97, atUs: 8_000_000 },
  ];
  expect(withUpcoming(known, { bpm: 100, atUs: 4_000_000 }, steadyTempo(60), 4)).toEqual([
    { bpm: 90, atUs: 2_000_000 },
    { bpm: 100, atUs: 4_000_000 },
  ]);
});
