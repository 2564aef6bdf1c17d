import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { Kit } from '../../src/kit/kit';
import type { Level } from '../../src/phrase/model/level';
import type { Note } from '../../src/phrase/model/note';
import { VOICES, type Voice } from '../../src/phrase/model/voice';
import { simulate, type Faults } from '../../src/take/simulate';
import { readStrokes } from '../../src/kit/read-strokes';
import { beats } from '../../src/time/beats';
import { runCount } from '../run-count';

const note = (index: number, voice: Voice, level: Level = 'tap'): Note => ({
  onset: beats(index, 4),
  graceStep: 0,
  graceOf: undefined,
  bar: 1 + Math.floor(index / 16),
  beat: beats(1),
  cycle: 1 + Math.floor(index / 8),
  position: 1 + (index % 8),
  limb: 'R',
  voice,
  level,
  layers: [1],
});
/** Sixteenths at 90, one voice unless told. */
const written = (count: number, voiceAt: (i: number) => Voice = () => 'snare', level?: Level) =>
  Array.from({ length: count }, (_, i) => ({
    note: note(i, voiceAt(i), level),
    timeUs: Math.round((i * 60e6) / 90 / 4),
  }));
const offsetsMs = (faults: Faults, count = 4000) => {
  const notes = written(count);
  return simulate(notes, faults, 3).truth.map(
    ({ timeUs, note: index }) => (timeUs - notes[index]!.timeUs) / 1000,
  );
};
const mean = (numbers: number[]) => numbers.reduce((sum, x) => sum + x, 0) / numbers.length;
const spread = (numbers: number[]) => Math.sqrt(mean(numbers.map((x) => (x - mean(numbers)) ** 2)));

describe('simulate', () => {
  it('plays exactly what is written when nothing is dialled', () => {
    const voices = VOICES.filter((voice) => voice !== 'hi-hat foot splash');
    const notes = written(voices.length, (i) => voices[i]!, 'accent');
    const { strokes, unmapped } = readStrokes(simulate(notes, {}, 1).messages, GENERAL_MIDI);
    expect(unmapped.size).toBe(0);
    expect(strokes.map(({ timeUs, voice }) => [timeUs, voice])).toEqual(
      notes.map(({ timeUs, note: { voice } }) => [timeUs, voice]),
    );
    expect(new Set(strokes.map(({ velocity }) => velocity))).toEqual(new Set([112]));
  });

  it('is the same for the same seed and another for another', () => {
    const faults = { spreadMs: 12, missed: 0.1, extra: 0.1, wrongVoices: 0.1 };
    const one = simulate(written(200), faults, 5);
    expect(simulate(written(200), faults, 5)).toEqual(one);
    expect(simulate(written(200), faults, 6)).not.toEqual(one);
  });

  it('has the bias and the spread that were dialled', () => {
    const found = offsetsMs({ biasMs: -8, spreadMs: 11 });
    expect(mean(found)).toBeCloseTo(-8, 0);
    expect(Math.abs(spread(found) - 11)).toBeLessThan(0.6);
  });

  it('drifts by so many milliseconds a minute', () => {
    const found = offsetsMs({ driftMsPerMinute: 30 }, 361);
    expect(found[0]).toBe(0);
    expect(found[360]).toBeCloseTo(30, 3);
  });

  it('misses, mistakes and adds in the shares that were dialled', () => {
    const { truth, messages } = simulate(
      written(4000),
      { missed: 0.1, wrongVoices: 0.2, extra: 0.05 },
      11,
    );
    const share = (kind: string) => truth.filter((stroke) => stroke.kind === kind).length / 4000;
    expect(Math.abs(share('missed') - 0.1)).toBeLessThan(0.02);
    expect(Math.abs(share('wrong voice') - 0.2 * 0.9)).toBeLessThan(0.02);
    expect(Math.abs(share('extra') - 0.05)).toBeLessThan(0.015);
    expect(messages).toHaveLength(truth.filter(({ kind }) => kind !== 'missed').length);
    for (const stroke of truth)
      if (stroke.kind === 'wrong voice') expect(stroke.voice).not.toBe('snare');
  });

  it('plays a share of the ghosts as loud as taps, and only ghosts', () => {
    const ghosts = simulate(written(2000, undefined, 'ghost'), { loudGhosts: 0.3 }, 2).truth;
    const loud = ghosts.filter(({ velocity }) => velocity === 72);
    expect(Math.abs(loud.length / 2000 - 0.3)).toBeLessThan(0.04);
    expect(loud.every(({ loudGhost }) => loudGhost)).toBe(true);
    const taps = simulate(written(500), { loudGhosts: 1 }, 2).truth;
    expect(taps.some(({ loudGhost }) => loudGhost)).toBe(false);
  });

  it('loses its place after so many cycles', () => {
    const notes = written(32);
    const faults = { lostPlace: { afterCycles: 2, slipMs: 166 } };
    const late = simulate(notes, faults, 1).truth.map(({ timeUs }, i) => timeUs - notes[i]!.timeUs);
    expect(late.slice(0, 16).every((us) => us === 0)).toBe(true);
    expect(late.slice(16).every((us) => us === 166_000)).toBe(true);
  });

  it('leaves the other faults where they are when one is dialled', () => {
    const calm = simulate(written(300), { missed: 0.1, spreadMs: 9 }, 4).truth;
    const wrong = simulate(written(300), { missed: 0.1, spreadMs: 9, wrongVoices: 0.5 }, 4).truth;
    expect(wrong.map(({ timeUs }) => timeUs)).toEqual(calm.map(({ timeUs }) => timeUs));
    const missedOf = (truth: typeof calm) => truth.map(({ kind }) => kind === 'missed');
    expect(missedOf(wrong)).toEqual(missedOf(calm));
  });

  it('keeps velocities from 1 to 127 and messages in time order', () => {
    fc.assert(
      fc.property(fc.integer(), fc.double({ min: 0, max: 80, noNaN: true }), (seed, size) => {
        const faults = { spreadMs: size, velocitySpread: size, extra: 0.3 };
        const { messages } = simulate(written(60), faults, seed);
        messages.forEach(({ timeUs, data2 }, i) => {
          expect(data2).toBeGreaterThanOrEqual(1);
          expect(data2).toBeLessThanOrEqual(127);
          if (i > 0) expect(timeUs).toBeGreaterThanOrEqual(messages[i - 1]!.timeUs);
        });
      }),
      { numRuns: runCount(40) },
    );
  });

  it.each(['open', 'closed'] as const)(
    'moves the pedal for a kit whose hi-hat follows the controller, high meaning %s',
    (highMeans) => {
      const kit: Kit = {
        title: 'Breakwater kit',
        opening: { controller: 4, highMeans, openFrom: 0.5 },
        pads: [
          { note: 8, name: 'hat', voice: 'hi-hat closed', group: 'hat', followsOpening: true },
        ],
      };
      const voices: Voice[] = ['hi-hat open', 'hi-hat closed', 'hi-hat open'];
      const { messages } = simulate(
        written(3, (i) => voices[i]!),
        {},
        1,
        kit,
      );
      expect(readStrokes(messages, kit).strokes.map(({ voice }) => voice)).toEqual(voices);
    },
  );

  it('leaves out what the kit has no pad for and says so; a foot splash goes to the pedal', () => {
    const kit = { ...EDGE_AND_RIM, pads: EDGE_AND_RIM.pads.filter(({ note: n }) => n !== 56) };
    const voices: Voice[] = ['cowbell', 'hi-hat foot splash'];
    const { truth, messages } = simulate(
      written(2, (i) => voices[i]!),
      {},
      1,
      kit,
    );
    expect(truth.map(({ kind }) => kind)).toEqual(['missed', 'played']);
    expect(messages.map(({ data1 }) => data1)).toEqual([44]);
  });
});

it('never gives a time of minus zero, which would compare unlike zero', () => {
  const { messages } = simulate([{ note: note(0, 'snare'), timeUs: 0 }], { biasMs: -0.0001 }, 1);
  expect(messages[0]!.timeUs).toBe(0);
});
