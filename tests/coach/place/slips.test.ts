import { describe, expect, it } from 'vitest';
import { slipsIn } from '../../../src/coach/place/slips';
import type { Stroke } from '../../../src/kit/stroke';
import { chance } from '../../../src/time/chance';
import {
  BOUNDARIES,
  harbourNotes,
  harbourPlan,
  HUMAN,
  later,
  PARTIAL_MS,
  play,
} from '../practice-take';

const notes = harbourNotes(12);
const plan = harbourPlan();
const slipsOf = (strokes: readonly Stroke[], of = plan) => slipsIn(of, strokes, () => BOUNDARIES);
const barUs = (bar: number) => (bar - 1) * 16 * PARTIAL_MS * 1000;

/** Everything of some cycles so many partials later. */
const moved = (partials: number, fromCycle: number, toCycle = Infinity, seed = 2) =>
  play(notes, HUMAN, seed, (stroke, { note: { cycle } }) =>
    cycle >= fromCycle && cycle <= toCycle ? later(stroke, partials * PARTIAL_MS) : stroke,
  ).sort((a, b) => a.timeUs - b.timeUs);

/** One pad, accents on five of sixteen partials. */
const STREAM = {
  title: 'Harbour wall',
  meter: '4/4',
  tempoBpm: 96,
  subdivision: 4,
  grouping: 'R L R R L R L L',
  cycle: 16,
  layers: [
    { name: 'Sticking' },
    {
      name: 'Accents',
      changes: [{ where: { positions: [1, 4, 7, 12, 14] }, set: { level: 'accent' } }],
    },
  ],
};

describe('lost place', () => {
  it.each([-7, -3, -2, -1, 1, 2, 3, 6, 8])('by %i partials, and where it began', (partials) => {
    const [slip, ...others] = slipsOf(moved(partials, 5));
    expect(others).toEqual([]);
    expect(slip).toMatchObject({ partials, passage: 0, repeats: 16, toUs: undefined });
    expect(Math.abs(slip!.fromUs - barUs(5))).toBeLessThanOrEqual(9 * PARTIAL_MS * 1000);
    expect(slip!.certainUs - barUs(5)).toBeLessThan(2 * 16 * PARTIAL_MS * 1000);
  });

  it('that the player came back from', () => {
    const [slip, ...others] = slipsOf(moved(1, 4, 6));
    expect(others).toEqual([]);
    expect(slip).toMatchObject({ partials: 1 });
    expect(Math.abs(slip!.fromUs - barUs(4))).toBeLessThanOrEqual(2 * PARTIAL_MS * 1000);
    expect(Math.abs(slip!.toUs! - barUs(7))).toBeLessThanOrEqual(2 * PARTIAL_MS * 1000);
  });

  it('that goes farther, as two slips, each from where it began', () => {
    const strokes = play(notes, HUMAN, 2, (stroke, { note: { cycle } }) =>
      cycle >= 8 ? later(stroke, 3 * PARTIAL_MS) : cycle >= 4 ? later(stroke, PARTIAL_MS) : stroke,
    );
    expect(slipsOf(strokes).map(({ partials }) => partials)).toEqual([1, 3]);
    expect(slipsOf(strokes)[0]!.toUs).toBe(slipsOf(strokes)[1]!.fromUs);
  });

  it('in a stream on one pad, by the accents where they are asked for, and else never', () => {
    const stream = harbourNotes(12, 2, STREAM);
    const lost = { afterCycles: 4, slipMs: 2 * PARTIAL_MS };
    const strokes = play(stream, { ...HUMAN, lostPlace: lost }, 2);
    expect(slipsOf(strokes, harbourPlan(2, STREAM))).toMatchObject([{ partials: 2 }]);
    expect(slipsOf(strokes, harbourPlan(1, STREAM))).toEqual([]);
    expect(slipsIn(harbourPlan(2, STREAM), strokes, () => undefined)).toEqual([]);
  });

  it.each([
    ['as written', HUMAN],
    ['late all along', { ...HUMAN, biasMs: 30 }],
    ['half a partial late', { ...HUMAN, biasMs: PARTIAL_MS / 2 }],
    ['late and later', { ...HUMAN, driftMsPerMinute: 300 }],
    ['half of it missed', { ...HUMAN, missed: 0.5 }],
    ['many wrong voices and extra strokes', { ...HUMAN, wrongVoices: 0.5, extra: 0.3 }],
    ['whole cycles late', { ...HUMAN, lostPlace: { afterCycles: 3, slipMs: 16 * PARTIAL_MS } }],
    ['of which nothing is played', { missed: 1 }],
  ])('is not told of a take %s', (_, faults) => {
    for (const seed of [1, 2, 3, 4, 5]) expect(slipsOf(play(notes, faults, seed))).toEqual([]);
  });

  it('is not told of random hits and fills', () => {
    const { next, share } = chance(5);
    const kit = ['snare', 'ride', 'bass drum', 'hi-hat pedal'] as const;
    for (let run = 0; run < 20; run++) {
      const hits: Stroke[] = [];
      for (let partial = 0; partial < 160; partial++)
        if (share() < 0.8)
          hits.push({
            timeUs: Math.round(partial * PARTIAL_MS * 1000),
            voice: kit[next() % 4]!,
            velocity: 1 + (next() % 127),
            pad: 38,
          });
      expect(slipsOf(hits)).toEqual([]);
    }
  });

  it('never from two partials that tell the places apart: the third does', () => {
    const file = {
      ...STREAM,
      grouping: 'R R R R R R R K',
      cycle: 8,
      layers: [{ name: 'Sticking' }],
    };
    const one = harbourPlan(1, file);
    // The bass drum moves by one: two partials a cycle differ.
    const strokes = play(harbourNotes(12, 1, file), {}, 1, (stroke, { note: { cycle } }) =>
      cycle >= 5 ? later(stroke, PARTIAL_MS) : stroke,
    );
    const slip = slipsOf(strokes, one)[0]!;
    const differing = (slip.certainUs - slip.fromUs) / (8 * PARTIAL_MS * 1000);
    expect(slip.partials).toBe(1);
    expect(differing).toBeGreaterThanOrEqual(1);
    const until = (us: number) => strokes.filter(({ timeUs }) => timeUs <= us);
    expect(slipsOf(until(slip.certainUs - PARTIAL_MS * 1000), one)).toEqual([]);
  });

  it('ends with its passage', () => {
    const two = { ...plan, passages: [...plan.passages, { fromBar: 8, layer: 2 }] };
    const slips = slipsOf(moved(2, 5), two);
    expect(slips[0]).toMatchObject({ partials: 2, passage: 0, toUs: barUs(8) });
    expect(slips[1]).toMatchObject({ partials: 2, passage: 1, toUs: undefined });
  });

  it('lawOrder: whatever the order in which strokes are given', () => {
    const strokes = moved(3, 5);
    expect(slipsOf([...strokes].reverse())).toEqual(slipsOf(strokes));
  });
});
