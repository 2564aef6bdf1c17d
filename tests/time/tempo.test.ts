import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beats } from '../../src/time/beats';
import { steadyTempo, tempoMap, type TempoChange } from '../../src/time/tempo';

/** From 100 bpm on through changes in any order. */
const through = (changes: readonly TempoChange[]) =>
  tempoMap([
    { fromBeat: beats(0), bpm: 100 },
    ...changes.toSorted((a, b) => a.fromBeat.compare(b.fromBeat)),
  ]);

describe('tempoMap', () => {
  const map = tempoMap([
    { fromBeat: beats(0), bpm: 120 },
    { fromBeat: beats(4), bpm: 60 },
    { fromBeat: beats(13, 2), bpm: 240 },
  ]);

  it.each([
    [beats(-2), -1_000_000],
    [beats(0), 0],
    [beats(4), 2_000_000],
    [beats(5), 3_000_000],
    [beats(13, 2), 4_500_000],
    [beats(15, 2), 4_750_000],
  ])('runs through its changes: beat %s is at %i us', (beat, us) => {
    expect(map.usAt(beat)).toBe(us);
  });

  it('has the new tempo from the very beat of the change', () => {
    expect([beats(-1), beats(399, 100), beats(4), beats(7)].map((beat) => map.bpmAt(beat))).toEqual(
      [120, 120, 60, 240],
    );
  });

  it('lawMonotone: later beats are never earlier in time', () => {
    const change = fc.record({
      beat: fc.integer({ min: 1, max: 64 }),
      bpm: fc.integer({ min: 30, max: 300 }),
    });
    fc.assert(
      fc.property(
        fc.array(change),
        fc.integer({ min: -8, max: 300 }),
        fc.nat(50),
        (found, at, more) => {
          const tempos = through(found.map(({ beat, bpm }) => ({ fromBeat: beats(beat), bpm })));
          expect(tempos.usAt(beats(at, 4))).toBeLessThanOrEqual(tempos.usAt(beats(at + more, 4)));
        },
      ),
    );
  });

  it('lawSamePlace: parts of a beat are the fraction they make, and a time leads back to its beat', () => {
    const change = fc.record({
      parts: fc.nat(400),
      partsABeat: fc.integer({ min: 1, max: 48 }),
      bpm: fc.integer({ min: 10, max: 1200 }),
    });
    fc.assert(
      fc.property(
        fc.array(change),
        fc.integer({ min: -400, max: 40_000 }),
        fc.integer({ min: 1, max: 48 }),
        (found, parts, partsABeat) => {
          const tempos = through(
            found.map((one) => ({ fromBeat: beats(one.parts, one.partsABeat), bpm: one.bpm })),
          );
          const beat = beats(parts, partsABeat);
          expect(tempos.usAtPart(parts, partsABeat)).toBe(tempos.usAt(beat));
          expect(tempos.bpmAtPart(parts, partsABeat)).toBe(tempos.bpmAt(beat));
          // A microsecond at 1200 is 0.00002 beats.
          expect(tempos.beatAt(tempos.usAt(beat))).toBeCloseTo(beat.valueOf(), 4);
        },
      ),
    );
  });

  it('after a hundred thousand beats is off by no more than its rounding', () => {
    // 60e6 / 97 us per beat, times 100,000 = 61,855,670,103.09.
    expect(steadyTempo(97).usAt(beats(100_000))).toBe(61_855_670_103);
  });

  it('takes the last of several tempi from one beat, and the first one from beat 0', () => {
    const tempos = tempoMap([
      { fromBeat: beats(7), bpm: 60 },
      { fromBeat: beats(2), bpm: 90 },
      { fromBeat: beats(2), bpm: 120 },
    ]);
    expect([tempos.bpmAt(beats(1)), tempos.bpmAt(beats(2))]).toEqual([60, 120]);
    expect(tempos.usAt(beats(3))).toBe(2_500_000);
  });

  it('refuses what is no tempo map', () => {
    expect(() => tempoMap([])).toThrow(new RangeError('a tempo map needs at least one tempo'));
    expect(() => steadyTempo(0)).toThrow(new RangeError('tempo must be positive, got 0'));
    expect(() => steadyTempo(Number.NaN)).toThrow(RangeError);
    expect(() =>
      tempoMap([
        { fromBeat: beats(0), bpm: 90 },
        { fromBeat: beats(4), bpm: 90 },
        { fromBeat: beats(3), bpm: 90 },
      ]),
    ).toThrow(new RangeError('tempo changes must be in beat order'));
  });
});
