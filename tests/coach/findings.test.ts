import { describe, expect, it } from 'vitest';
import { findings } from '../../src/coach/findings';
import type { Stroke } from '../../src/kit/stroke';
import type { TimedNote } from '../../src/match/timed-note';
import { chance } from '../../src/time/chance';
import { kindOf } from '../claims/coach/naming';
import { longRunCount } from '../run-count';
import type { Faults } from '../../src/take/simulate';
import {
  BOUNDARIES,
  harbourNotes,
  harbourPlan,
  HUMAN,
  judged,
  later,
  PARTIAL_MS,
  play,
} from './practice-take';

const notes = harbourNotes(16);
const plan = harbourPlan();
const told = (strokes: readonly Stroke[], of = notes) =>
  findings(plan, judged(of, strokes), () => BOUNDARIES);
const texts = (strokes: readonly Stroke[], of = notes) => told(strokes, of).map(({ text }) => text);
type Bend = (stroke: Stroke, due: TimedNote) => Stroke | undefined;

describe('a dialled fault is the first thing told', () => {
  const only =
    (is: (due: TimedNote) => boolean, change: (stroke: Stroke) => Stroke | undefined): Bend =>
    (stroke, due) =>
      is(due) ? change(stroke) : stroke;

  it.each<[string, Faults, Bend | undefined, RegExp]>([
    [
      'the left hand late',
      {},
      only(
        (due) => due.note.limb === 'L',
        (s) => later(s, 12),
      ),
      /^Left hand 1[0-4] ms late, steadily\.$/,
    ],
    ['all strokes early', { biasMs: -20 }, undefined, /^All strokes (19|20|21) ms early\.$/],
    [
      'the left hand behind, all early',
      { biasMs: -15 },
      only(
        (due) => due.note.limb === 'L',
        (s) => later(s, 12),
      ),
      /^Left hand 1[0-5] ms behind the rest, steadily\.$/,
    ],
    ['a wide spread', { spreadMs: 26 }, undefined, /^Spread 2[3-9] ms\.$/],
    [
      'the right foot uneven',
      {},
      only(
        (due) => due.note.limb === 'K',
        (s) => later(s, ((s.timeUs * 7919) % 61) - 30),
      ),
      /^Right foot: spread \d\d ms, more than the rest\.$/,
    ],
    [
      'dragging',
      { driftMsPerMinute: 30 },
      undefined,
      /^Dragging: (1[4-9]|2[0-6]) ms over 16 bars\.$/,
    ],
    [
      'rushing',
      { driftMsPerMinute: -30 },
      undefined,
      /^Rushing: (1[4-9]|2[0-6]) ms over 16 bars\.$/,
    ],
    [
      'one late position',
      {},
      only(
        (due) => due.note.position === 7,
        (s) => later(s, 20),
      ),
      /^Position 7: (1[5-9]|2[0-5]) ms late\.$/,
    ],
    [
      'one missed position',
      {},
      only(
        (due) => due.note.position === 7 && due.note.cycle % 2 === 0,
        () => undefined,
      ),
      /^Position 7: missed 8 of 16\.$/,
    ],
    [
      'a foot that is missed',
      {},
      only(
        (due) => due.note.limb === 'F' && due.note.cycle % 2 === 0,
        () => undefined,
      ),
      /^Hi-hat pedal: missed 16 of 32\.$/,
    ],
    ['many missed notes', { missed: 0.25 }, undefined, /^\d\d of 320 notes missed\.$/],
    ['loud ghosts', { loudGhosts: 0.5 }, undefined, /^Snare ghosts too loud: [3-6]\d of 96\.$/],
    [
      'soft accents on one voice',
      {},
      only(
        (due) => due.note.level === 'accent' && due.note.voice === 'ride',
        (s) => ({ ...s, velocity: 80 }),
      ),
      // 40·log10(95/80) = 2.98 dB under the boundary.
      /^Ride accents too soft: 32 of 32\.$/,
    ],
    [
      'accents under the ghosts',
      { velocities: { ghost: 110, tap: 70, accent: 30 }, velocitySpread: 0 },
      undefined,
      // 40·log10(110/30) = 22.57 dB by the GM volume law [C].
      /^Ghosts 23 dB louder than the accents\.$/,
    ],
    [
      'a wrong voice',
      {},
      only(
        (due) => due.note.voice === 'ride' && due.note.position === 9,
        (s) => ({ ...s, voice: 'crash' }),
      ),
      /^Crash struck for ride, 16 times: position 9\.$/,
    ],
    [
      'a note map that is off',
      {},
      only(
        (due) => due.note.voice === 'ride',
        (s) => ({ ...s, voice: 'ride bell' }),
      ),
      /^Nearly every ride arrives as ride bell\.$/,
    ],
    ['extra strokes', { extra: 0.12 }, undefined, /^\d\d extra strokes|^Bounces/],
    [
      'a lost place',
      { lostPlace: { afterCycles: 6, slipMs: PARTIAL_MS } },
      undefined,
      /^Slipped one sixteenth late since bar 7\.$/,
    ],
  ])('%s', (_, faults, bend, text) => {
    for (const seed of [1, 2, 3])
      expect(texts(play(notes, { ...HUMAN, ...faults }, seed, bend))[0]).toMatch(text);
  });
});

it('never calls a position early that is only less late than the rest of its limb', () => {
  for (const seed of [1, 2, 3]) {
    const strokes = play(notes, { ...HUMAN, biasMs: 20 }, seed, (stroke, due) =>
      due.note.position === 7 ? later(stroke, -20) : stroke,
    );
    const position = texts(strokes).filter((text) => text.startsWith('Position 7'));
    expect(position).toEqual([expect.stringMatching(/^Position 7: \d\d ms ahead of the rest\.$/)]);
  }
});

describe('what is not told', () => {
  it('nothing about an even player: in fewer than one take in fifty, and what is said is that', () => {
    const takes = Array.from({ length: 150 }, (_, seed) => told(play(notes, HUMAN, seed + 1)));
    expect(takes.filter((found) => found.some((one) => kindOf(one))).length).toBeLessThanOrEqual(3);
    expect(takes[0]!.map(({ text }) => text)).toEqual([
      'Even: limbs, voices and partials within 6 ms.',
    ]);
  });

  it('anything but how few there are from a handful of strokes', () => {
    expect(texts([])).toEqual(['Nothing to say about time yet: 0 of 72 strokes.']);
    const few = harbourNotes(1).slice(0, 11);
    expect(texts(play(few, { biasMs: 30 }, 1), few)).toEqual([
      'Nothing to say about time yet: 11 of 112 strokes.',
    ]);
  });

  it('another tempo in fewer than six bars, nor what it drags along: missed, extra and wrong strokes', () => {
    // 5 % slower: 3000 ms a minute.
    const codes = (bars: number) => {
      const of = harbourNotes(bars);
      return told(play(of, { ...HUMAN, driftMsPerMinute: 3000 }, 1), of).map(({ code }) => code);
    };
    expect(codes(4)).toEqual(['undecided']);
    expect(codes(5)).toEqual(['undecided']);
    expect(codes(6)).toEqual(['other tempo']);
  });

  // Half of the tolerance of 35 ms.
  it('a steady offset of everything that costs no notes', () => {
    expect(told(play(notes, { biasMs: 17.4 }, 1)).some((one) => kindOf(one))).toBe(false);
    expect(texts(play(notes, { biasMs: 17.6 }, 1))).toEqual(['All strokes 18 ms late.']);
  });

  it('an offset as steady while it grows: the drift alone', () => {
    const codes = told(play(notes, { driftMsPerMinute: 30 }, 1)).map(({ code }) => code);
    expect(codes).toEqual(['drift']);
  });

  it('faults of an earlier layer', () => {
    const before = harbourNotes(8, 1).map((due) => ({ ...due, layer: 1, passage: 0 }));
    const shift = 8 * 16 * PARTIAL_MS * 1000;
    const after = harbourNotes(8, 2).map((due) => ({
      ...due,
      passage: 1,
      timeUs: due.timeUs + shift,
    }));
    const both = [...before, ...after];
    const strokes = [...play(before, { biasMs: 25 }, 1), ...play(after, { extra: 0.2 }, 1)];
    expect(told(strokes, both).map(({ code }) => code)).toEqual(['extras']);
  });

  it('what a slip drags along: missed, extra and wrong strokes of the slipped cycles', () => {
    const slipped = play(
      notes,
      { ...HUMAN, lostPlace: { afterCycles: 8, slipMs: -2 * PARTIAL_MS } },
      1,
    );
    expect(told(slipped).map(({ code }) => code)).toEqual(['lost place']);
  });
});

describe('what comes before what', () => {
  /** Seven of ten that the layer changed. */
  const unplayed = (stroke: Stroke, { note }: TimedNote) =>
    note.layers.includes(2) && note.position > 4 ? undefined : stroke;
  const codes = (faults: Faults) =>
    told(play(notes, { ...HUMAN, ...faults }, 1, unplayed)).map(({ code }) => code);

  it("a layer's own notes before a drift, another tempo before both", () => {
    expect(codes({ driftMsPerMinute: 60 })).toEqual(['missed', 'drift']);
    // 2 % slower: 1200 ms a minute.
    expect(codes({ driftMsPerMinute: 1200 })).toEqual(['other tempo', 'missed']);
  });

  it('a lost place before a drift', () => {
    const lostPlace = { afterCycles: 8, slipMs: PARTIAL_MS };
    expect(
      told(play(notes, { ...HUMAN, lostPlace, driftMsPerMinute: 60 }, 1)).map(({ code }) => code),
    ).toEqual(['lost place', 'drift']);
  });
});

it('ranks what touches more notes first', () => {
  const strokes = play(notes, { ...HUMAN, loudGhosts: 0.6 }, 1, (stroke, due) =>
    due.note.voice === 'ride' && due.note.position === 9 ? { ...stroke, voice: 'crash' } : stroke,
  );
  const found = told(strokes);
  expect(found.map(({ code }) => code)).toEqual(['too loud', 'wrong voice']);
  expect(found[0]!.weight).toBeGreaterThan(found[1]!.weight);
});

it('lawShift: moving phrase and take together changes nothing', () => {
  const move = 3_600_000_000;
  const strokes = play(notes, { ...HUMAN, missed: 0.1, extra: 0.1, biasMs: 9 }, 5);
  const moved = notes.map((due) => ({ ...due, timeUs: due.timeUs + move }));
  expect(
    texts(
      strokes.map((stroke) => ({ ...stroke, timeUs: stroke.timeUs + move })),
      moved,
    ),
  ).toEqual(texts(strokes));
});

it('lawOneAnswer: whatever is played, something is said, the same each time, and no two things of the same notes', () => {
  const { share, next } = chance(3);
  for (let take = 0; take < longRunCount(120); take++) {
    const bars = 1 + (next() % 12);
    const of = harbourNotes(bars, 1 + (next() % 2));
    const faults: Faults = {
      spreadMs: 40 * share(),
      biasMs: 60 * (share() - 0.5),
      driftMsPerMinute: 200 * (share() - 0.5),
      missed: share() * share(),
      extra: share() * share(),
      loudGhosts: share(),
      wrongVoices: share() * share(),
    };
    const strokes = play(of, faults, take);
    const found = told(strokes, of);
    expect(found.length).toBeGreaterThan(0);
    expect(told(strokes, of)).toEqual(found);
    const kinds = found.map(
      ({ code, notes }) => `${code} ${notes.map((due) => due.timeUs).join()}`,
    );
    expect(new Set(kinds).size).toBe(kinds.length);
  }
});
