import { expect, it } from 'vitest';
import { LiveTimeline } from '../../src/live/live-timeline';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { beats } from '../../src/time/beats';

const phrase = checkPhrase({
  title: 'Mooring line',
  meter: '2/4',
  tempoBpm: 60,
  subdivision: 4,
  cycle: 4,
  grouping: 'R L R L',
  layers: [
    { name: 'Sticking' },
    { name: 'Pickup', changes: [{ pickup: [{ partialsBefore: 1, limb: 'K' }] }] },
  ],
});

// Bar 2 begins at 2 s, its pickup a sixteenth before, at 1.75 s.
it.each([
  [1_750_000, 2],
  [1_750_001, 3],
])('a change of layer asked for at %i µs leaves room for the pickup: bar %i', (fromUs, bar) => {
  if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
  const timeline = new LiveTimeline({
    phrase: phrase.value,
    passages: [{ fromBar: 1, layer: 1 }],
    tempos: [{ fromBeat: beats(0), bpm: 60 }],
    windows: {},
    countInBars: 1,
  });
  expect(timeline.changeLayer(2, fromUs).bar).toBe(bar);
});
