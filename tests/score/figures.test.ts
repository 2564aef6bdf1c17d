import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figuresOf } from '../../src/score/figures';
import { answer, due, stream } from './cases';

describe('figures of a group', () => {
  it('counts every verdict once', () => {
    const figures = figuresOf([
      answer(due(0), { offsetMs: 0 }),
      answer(due(250), { offsetMs: -40 }),
      answer(due(500), { offsetMs: 40 }),
      answer(due(750), { offsetMs: 0, voice: 'crash' }),
      answer(due(1000), undefined),
      answer(due(1250), { offsetMs: 0, velocity: 120 }),
      answer(due(1500, { level: 'accent' }), { offsetMs: 0, velocity: 60 }),
      answer(due(1750, { level: 'ghost' }), { offsetMs: 20, velocity: 30 }),
    ]);
    expect(figures).toMatchObject({
      count: 8,
      answered: 7,
      inTime: 4,
      early: 1,
      late: 1,
      missed: 1,
      wrongVoice: 1,
      tooLoud: 1,
      tooSoft: 1,
      asWritten: 2 / 8,
      timed: 6,
      meanMs: 20 / 6,
      medianMs: 0,
    });
  });

  it('leaves the offset of a wrong voice out', () => {
    const figures = figuresOf([
      answer(due(0), { offsetMs: 4 }),
      answer(due(250), { offsetMs: 8 }),
      answer(due(500), { offsetMs: 48, voice: 'ride' }),
    ]);
    expect([figures.meanMs, figures.medianMs]).toEqual([6, 6]);
  });

  it('says nothing where there is nothing to say', () => {
    const none = figuresOf([]);
    expect(none.count).toBe(0);
    for (const key of ['asWritten', 'meanMs', 'medianMs', 'spreadMs', 'robustSpreadMs'] as const)
      expect(none[key], key).toBeUndefined();
    expect(none.driftMsPerMinute).toBeUndefined();

    const missed = figuresOf(stream([undefined, undefined]));
    expect([missed.asWritten, missed.meanMs]).toEqual([0, undefined]);

    const one = figuresOf(stream([5]));
    expect([one.meanMs, one.spreadMs, one.robustSpreadMs, one.driftMsPerMinute]).toEqual([
      5,
      undefined,
      undefined,
      undefined,
    ]);

    const unison = figuresOf([answer(due(0), { offsetMs: 1 }), answer(due(0), { offsetMs: 9 })]);
    expect(unison.driftMsPerMinute).toBeUndefined();
  });

  it('tells no drift from a few strokes, nor from a short while', () => {
    const few = figuresOf([answer(due(0), { offsetMs: 0 }), answer(due(60), { offsetMs: -30 })]);
    expect(few.driftMsPerMinute).toBeUndefined();
    const short = figuresOf(stream(Array.from({ length: 12 }, (_, i) => i)));
    expect(short.driftMsPerMinute).toBeUndefined();
    const minutesIn = Array.from({ length: 12 }, (_, i) =>
      answer(due(120_000 + i * 250), { offsetMs: i }),
    );
    expect(figuresOf(minutesIn).driftMsPerMinute).toBeUndefined();
    const enough = figuresOf(stream(Array.from({ length: 13 }, (_, i) => i)));
    expect(enough.driftMsPerMinute).toBeCloseTo(240, 9);
  });

  it('tells no drift from seven strokes, but from eight', () => {
    const slow = (count: number) =>
      figuresOf(Array.from({ length: count }, (_, i) => answer(due(i * 600), { offsetMs: i })));
    expect(slow(7).driftMsPerMinute).toBeUndefined();
    // 1 ms at every stroke, 100 strokes a minute.
    expect(slow(8).driftMsPerMinute).toBeCloseTo(100, 9);
  });

  // Drift rule [C]: 0.5 ms later at every eighth note of 250 ms is +32 ms after 64.
  it('tells dragging as ms per minute', () => {
    const dragging = figuresOf(stream(Array.from({ length: 65 }, (_, i) => i / 2)));
    expect(dragging.driftMsPerMinute! * ((64 * 250) / 60_000)).toBeCloseTo(32, 9);
    const rushing = figuresOf(stream(Array.from({ length: 65 }, (_, i) => -i / 2)));
    expect(rushing.driftMsPerMinute).toBeCloseTo(-120, 9);
  });

  it('does not let a few wild strokes move median, robust spread and drift', () => {
    const offsets = Array.from({ length: 40 }, (_, i) => [-4, 4, -2, 2][i % 4]!);
    const calm = figuresOf(stream(offsets));
    const wild = figuresOf(stream(offsets.map((o, i) => (i % 13 === 12 ? 90 : o))));
    expect(Math.abs(wild.medianMs! - calm.medianMs!)).toBeLessThanOrEqual(2);
    expect(wild.robustSpreadMs! / calm.robustSpreadMs!).toBeLessThan(1.4);
    expect(wild.spreadMs! / calm.spreadMs!).toBeGreaterThan(4);
    expect(Math.abs(wild.driftMsPerMinute!)).toBeLessThan(30);
  });
});

describe('laws of the figures', () => {
  const offsets = fc.array(fc.integer({ min: -30, max: 30 }), { minLength: 13, maxLength: 40 });

  it('lawPermutationInvariant: the order of the notes changes nothing', () => {
    fc.assert(
      fc.property(offsets, fc.infiniteStream(fc.nat()), (list, chance) => {
        const notes = stream(list);
        const shuffled = notes
          .map((note) => ({ note, key: chance.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ note }) => note);
        const a = figuresOf(notes);
        const b = figuresOf(shuffled);
        for (const key of Object.keys(a) as (keyof typeof a)[])
          expect(b[key], key).toBeCloseTo(a[key]!, 9);
      }),
    );
  });

  it('lawShift: mean and median move with the strokes, spread and drift do not', () => {
    fc.assert(
      fc.property(offsets, fc.integer({ min: -50, max: 50 }), (list, shift) => {
        const a = figuresOf(stream(list));
        const b = figuresOf(stream(list.map((offset) => offset + shift)));
        expect(b.meanMs! - a.meanMs!).toBeCloseTo(shift, 9);
        expect(b.medianMs! - a.medianMs!).toBeCloseTo(shift, 9);
        expect(b.spreadMs).toBeCloseTo(a.spreadMs!, 9);
        expect(b.robustSpreadMs).toBeCloseTo(a.robustSpreadMs!, 9);
        expect(b.driftMsPerMinute).toBeCloseTo(a.driftMsPerMinute!, 6);
      }),
    );
  });
});
