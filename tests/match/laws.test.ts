import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matchColumns } from '../../src/match/match-take';
import { columns, playedTrain, totalCost, type Train } from './arbitrary-train';
import { runCount } from '../run-count';

const match = (train: Train) => {
  const { notes, strokes } = columns(train);
  return matchColumns(notes, strokes).strokeOfNote;
};

const withReach = (train: Train, reachUs: number): Train => ({
  ...train,
  notes: train.notes.map((note) => ({ ...note, reachUs })),
});

const pairs = (strokeOfNote: Int32Array) => strokeOfNote.filter((j) => j >= 0).length;

describe('laws of matching', () => {
  it('lawShiftInvariant: shifting notes and strokes together changes nothing', () => {
    fc.assert(
      fc.property(playedTrain, fc.integer({ min: -4e9, max: 4e9 }), (train, by) => {
        const shifted: Train = {
          notes: train.notes.map((note) => ({ ...note, timeUs: note.timeUs + by })),
          strokes: train.strokes.map((stroke) => ({ ...stroke, timeUs: stroke.timeUs + by })),
        };
        expect(match(shifted)).toEqual(match(train));
      }),
    );
  });

  it('lawWiderReach: within one voice a wider reach never loses a pair', () => {
    fc.assert(
      fc.property(playedTrain, fc.integer({ min: 1, max: 100_000 }), (train, more) => {
        const one: Train = {
          notes: train.notes
            .filter((note, i) => train.notes.findIndex((n) => n.timeUs === note.timeUs) === i)
            .map((note) => ({ ...note, voice: 0 })),
          strokes: train.strokes.map((stroke) => ({ ...stroke, voice: 0 })),
        };
        const reach = train.notes[0]?.reachUs ?? 50_000;
        expect(pairs(match(withReach(one, reach + more)))).toBeGreaterThanOrEqual(
          pairs(match(withReach(one, reach))),
        );
      }),
    );
  });
});

/** Victor & Purpura's distance between two trains: both lists of events, cost 1 to add or delete, q per µs to move, 1 to relabel. */
type Event = { timeUs: number; voice: number };
function distance(a: readonly Event[], b: readonly Event[], reachUs: number): number {
  const train: Train = {
    notes: a.map((event) => ({ ...event, reachUs })),
    strokes: b.map((event) => ({ ...event, velocity: 80 })),
  };
  return totalCost(train, match(train), reachUs) / reachUs;
}

const event = fc.record({
  timeUs: fc.integer({ min: 0, max: 400_000 }),
  voice: fc.integer({ min: 0, max: 2 }),
});
const train = fc
  .uniqueArray(event, { maxLength: 8, selector: (e) => `${e.timeUs} ${e.voice}` })
  .map((events) => [...events].sort((x, y) => x.timeUs - y.timeUs || x.voice - y.voice));
const REACH = 100_000;

/**
 * Properties published for the metric: Victor & Purpura 1996, J. Neurophysiol. 76:1310-1326, and for
 * labels Aronov, Reich, Mechler & Victor 2003, J. Neurophysiol. 89:3304-3327 (from memory).
 */
describe('the cost of a matching is the labelled spike-train metric', () => {
  it('lawIdentity: 0 for a train and itself, and only then', () => {
    fc.assert(
      fc.property(train, train, (a, b) => {
        expect(distance(a, a, REACH)).toBe(0);
        expect(distance(a, b, REACH) === 0).toBe(JSON.stringify(a) === JSON.stringify(b));
      }),
    );
  });

  it('lawSymmetric: the same both ways', () => {
    fc.assert(
      fc.property(train, train, (a, b) => {
        expect(distance(a, b, REACH)).toBeCloseTo(distance(b, a, REACH), 9);
      }),
    );
  });

  it('lawTriangle: no detour is shorter', () => {
    fc.assert(
      fc.property(train, train, train, (a, b, c) => {
        expect(distance(a, c, REACH)).toBeLessThanOrEqual(
          distance(a, b, REACH) + distance(b, c, REACH) + 1e-9,
        );
      }),
      { numRuns: runCount(500) },
    );
  });

  it('lawCountLimit: as q goes to 0 only the numbers of one label count, |n - m|', () => {
    const wide = 500_000;
    const close = fc
      .uniqueArray(fc.integer({ min: 0, max: 20 }), { maxLength: 8 })
      .map((times) => times.sort((x, y) => x - y).map((timeUs) => ({ timeUs, voice: 0 })));
    fc.assert(
      fc.property(close, close, (a, b) => {
        expect(distance(a, b, wide)).toBeCloseTo(Math.abs(a.length - b.length), 2);
      }),
    );
  });

  it('lawCoincidenceLimit: as q grows, n + m less twice the coincidences, relabelled ones at half', () => {
    fc.assert(
      fc.property(train, train, (a, b) => {
        const times = (events: readonly Event[]) => new Set(events.map((e) => e.timeUs));
        fc.pre(times(a).size === a.length && times(b).size === b.length);
        let expected = a.length + b.length;
        for (const e of a) {
          const there = b.find((f) => f.timeUs === e.timeUs);
          if (there) expected -= there.voice === e.voice ? 2 : 1;
        }
        expect(distance(a, b, 1)).toBeCloseTo(expected, 9);
      }),
    );
  });
});
