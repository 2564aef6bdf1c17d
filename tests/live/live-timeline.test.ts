import fc from 'fast-check';
import { expect, it } from 'vitest';
import { LiveTimeline } from '../../src/live/live-timeline';
import type { Plan } from '../../src/match/plan';
import { timedNotes } from '../../src/match/timed-notes';
import { passageStart } from '../../src/phrase/layers/passage-start';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import type { Passage } from '../../src/phrase/model/passage';
import { beats } from '../../src/time/beats';
import { tempoMap } from '../../src/time/tempo';
import { arbitraryPhrase } from '../phrase/arbitrary-phrase';

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

// Bar 3 begins at 4 s, its pickup of a bar at 2 s, in the first cycle still.
it.each([
  [1_999_999, 0],
  [2_000_000, 4],
])('laid out up to %i µs, %i notes of a long pickup are there', (untilUs, count) => {
  const long = checkPhrase({
    title: 'Long mooring line',
    meter: '2/4',
    tempoBpm: 60,
    subdivision: 2,
    grouping: 'R L R L R L R L',
    layers: [
      { name: 'Sticking' },
      {
        name: 'Pickup',
        changes: [
          {
            pickup: [4, 3, 2, 1].map((partialsBefore) => ({
              partialsBefore,
              limb: 'K' as const,
            })),
          },
        ],
      },
    ],
  });
  if (!long.ok) throw new Error(long.errors[0]!.message);
  const timeline = new LiveTimeline({
    phrase: long.value,
    passages: [
      { fromBar: 1, layer: 1 },
      { fromBar: 3, layer: 2 },
    ],
    tempos: [{ fromBeat: beats(0), bpm: 60 }],
    windows: {},
    countInBars: 1,
  });
  timeline.extendTo(untilUs);
  const pickup = timeline.notes.filter(({ passage, note }) => passage === 1 && note.cycle === 0);
  expect(pickup).toHaveLength(count);
});

const arbitraryMoves = fc.array(
  fc.record({
    bars: fc.integer({ min: 0, max: 4 }),
    layer: fc.nat(),
    latePartials: fc.option(fc.integer({ min: -3, max: 3 }), { nil: undefined }),
  }),
  { maxLength: 3 },
);

it('lawOneLayout: what is laid out cycle by cycle up to a time is the whole target of the plan', () => {
  fc.assert(
    fc.property(
      arbitraryPhrase(),
      arbitraryMoves,
      fc.integer({ min: 30, max: 300 }),
      fc.integer({ min: -100_000, max: 20_000_000 }),
      (any, moves, bpm, untilUs) => {
        const passages: Passage[] = [{ fromBar: 1, layer: any.layers.length }];
        for (const { bars, layer, latePartials } of moves)
          passages.push({
            fromBar: passages.at(-1)!.fromBar + bars,
            layer: 1 + (layer % any.layers.length),
            ...(latePartials === undefined ? {} : { latePartials }),
          });
        const starts = passages.map((passage) => passageStart(any, passage));
        fc.pre(starts.every((start, i) => i === 0 || !start.lt(starts[i - 1]!)));
        const tempos = [
          { fromBeat: beats(0), bpm },
          { fromBeat: beats(7, 2), bpm: 330 - bpm },
        ];
        const plan: Plan = { phrase: any, passages, tempo: tempoMap(tempos), windows: {} };
        const timeline = new LiveTimeline({
          phrase: any,
          passages,
          tempos,
          windows: {},
          countInBars: 0,
        });
        const notes = timeline.notesUpTo(untilUs);
        expect(notes).toEqual(timedNotes(plan, untilUs));
        // Nobody played beyond: the rest is taken away, whole cycles of it.
        timeline.endAfter(notes.length);
        expect(timeline.notes).toHaveLength(notes.length);
        expect(timeline.cycles.filter(({ startUs }) => startUs > untilUs).length).toBeLessThan(2);
      },
    ),
  );
});
