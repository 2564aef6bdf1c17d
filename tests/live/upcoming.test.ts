import { expect, it } from 'vitest';
import { stillToCome, withUpcoming, type Upcoming } from '../../src/live/upcoming';
import { beats } from '../../src/time/beats';
import { steadyTempo, tempoMap } from '../../src/time/tempo';

const MINUTE = 60_000_000;
const tempoFrom = (bpm: number, atUs: number, bar = 2): Upcoming => ({
  bpm,
  bar,
  beat: beats(1),
  atUs,
});
const layerFrom = (layer: number, bar: number, atUs: number): Upcoming => ({
  layer,
  bar,
  hasPickup: false,
  atUs,
});

it('keeps a layer to come when a tempo is chosen, and moves its bar line with the tempo', () => {
  // At 60 in 4/4 bar 3 begins after 8 s; with 120 from bar 2 (4 s) on, after 6 s.
  const layer: Upcoming = layerFrom(2, 3, (8 * MINUTE) / 60);
  const tempo = tempoMap([
    { fromBeat: beats(0), bpm: 60 },
    { fromBeat: beats(4), bpm: 120 },
  ]);
  expect(withUpcoming([layer], tempoFrom(120, 4_000_000), tempo, 4)).toEqual([
    tempoFrom(120, 4_000_000),
    layerFrom(2, 3, 6_000_000),
  ]);
});

it('keeps a tempo to come when a layer is chosen, in time order', () => {
  const bpm: Upcoming = tempoFrom(90, 9_000_000);
  expect(withUpcoming([bpm], layerFrom(3, 2, 4_000_000), steadyTempo(60), 4)).toEqual([
    layerFrom(3, 2, 4_000_000),
    bpm,
  ]);
});

it('lets a tempo replace the one that would have begun at the same moment or later', () => {
  const known: Upcoming[] = [
    tempoFrom(90, 2_000_000),
    tempoFrom(95, 4_000_000),
    tempoFrom(97, 8_000_000),
  ];
  expect(withUpcoming(known, tempoFrom(100, 4_000_000), steadyTempo(60), 4)).toEqual([
    tempoFrom(90, 2_000_000),
    tempoFrom(100, 4_000_000),
  ]);
});

const waitFrom = (bar: number, beat: number, atUs: number): Upcoming => ({
  waitPartials: 1,
  subdivision: 4,
  bar,
  beat: beats(beat),
  atUs,
});
const backFrom = (bar: number, atUs: number): Upcoming => ({ countInBars: 1, bar, atUs });

it('moves places to come with the tempo, those in mid-bar too', () => {
  // At 60 in 4/4 beat 2 of bar 3 begins after 9 s, bar 4 after 12; with 120 from bar 2 (4 s) on after 6.5 and 8.
  const tempo = tempoMap([
    { fromBeat: beats(0), bpm: 60 },
    { fromBeat: beats(4), bpm: 120 },
  ]);
  const known = [waitFrom(3, 2, 9_000_000), backFrom(4, 12_000_000)];
  expect(withUpcoming(known, tempoFrom(120, 4_000_000), tempo, 4)).toEqual([
    tempoFrom(120, 4_000_000),
    waitFrom(3, 2, 6_500_000),
    backFrom(4, 8_000_000),
  ]);
});

it('is to come as long as the passages have it', () => {
  const known = [
    tempoFrom(90, 2_000_000),
    layerFrom(2, 3, 8_000_000),
    waitFrom(5, 2, 17_000_000),
    backFrom(7, 24_000_000),
  ];
  const passages = [
    { fromBar: 1, layer: 1 },
    { fromBar: 3, layer: 2 },
    { fromBar: 5, layer: 2, latePartials: 4 },
    { fromBar: 8, layer: 2, countInBars: 1 },
  ];
  expect(stillToCome(known, passages)).toEqual(known);
  expect(stillToCome(known, passages.slice(0, 2))).toEqual(known.slice(0, 2));
  expect(stillToCome(known, [{ fromBar: 1, layer: 1 }])).toEqual(known.slice(0, 1));
});
