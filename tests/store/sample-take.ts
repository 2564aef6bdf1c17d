import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import type { TakeSummary } from '../../src/take/take-summary';
import type { Take } from '../../src/take/take';
import { beats } from '../../src/time/beats';

/** A minute at the quay: odd tempos, a negative count-in stroke, a time beyond 32 bits. */
export const sampleTake = (startedAt = '2026-03-01T18:20:00.000Z'): Take => ({
  startedAt,
  phraseText: '{ "title": "Tide table" }',
  passages: [
    { fromBar: 1, layer: 1 },
    { fromBar: 6, layer: 2 },
    { fromBar: 9, layer: 2, latePartials: -3 },
    { fromBar: 12, layer: 2, countInBars: 1 },
  ],
  tempos: [
    { fromBeat: beats(0), bpm: 96.5 },
    { fromBeat: beats(-7, 3), bpm: 100 },
    { fromBeat: beats(61, 3), bpm: 101 },
  ],
  countInBars: 1,
  endUs: 4_000_000_001,
  kit: EDGE_AND_RIM,
  deviceOffsetMs: 7.25,
  toleranceMs: undefined,
  reachMs: 80,
  messages: [
    { timeUs: -12_345, status: 0x99, data1: 38, data2: 101 },
    { timeUs: 0, status: 0xb9, data1: 4, data2: 127 },
    { timeUs: 4_000_000_000, status: 0x99, data1: 36, data2: 1 },
  ],
});

export const sampleSummary = (startedAt = '2026-03-01T18:20:00.000Z'): TakeSummary => ({
  startedAt,
  phraseTitle: 'Tide table',
  layer: 2,
  layerName: 'Accents',
  tempoBpm: 96.5,
  seconds: 61.2,
  notes: 214,
  asWritten: 0.93,
  offsetMeanMs: -3.5,
  spreadMs: 9.1,
  contrastDb: undefined,
  passed: true,
});
