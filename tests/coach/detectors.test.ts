import { describe, expect, it } from 'vitest';
import { drift } from '../../src/coach/drift';
import type { Evidence } from '../../src/coach/evidence';
import { levels } from '../../src/coach/levels';
import { limbPlaces } from '../../src/coach/limb-places';
import { missedNotes } from '../../src/coach/missed-notes';
import { positions } from '../../src/coach/positions';
import { unevenness } from '../../src/coach/unevenness';
import { voices } from '../../src/coach/voices';
import type { Stroke } from '../../src/kit/stroke';
import type { JudgedNote } from '../../src/score/judged-note';
import { scoreTake } from '../../src/score/score-take';
import { answer, BOUNDARIES, due, extra, type Answer, type NoteParts } from '../score/cases';

/** What the detectors look at, where 6 ms are noticed and 35 ms are in time. */
function evidence(notes: readonly JudgedNote[], extras: readonly Stroke[] = []): Evidence {
  const judgement = { notes, extras };
  return {
    judgement,
    score: scoreTake(judgement),
    boundaries: () => BOUNDARIES,
    toleranceMs: 35,
    noticeableMs: 6,
  };
}

/** `count` notes a quarter of a second apart, each on a position of its own. */
const notes = (
  count: number,
  given: (i: number) => Answer,
  parts: (i: number) => NoteParts = () => ({}),
): JudgedNote[] =>
  Array.from({ length: count }, (_, i) =>
    answer(due(i * 250, { position: i + 1, ...parts(i) }), given(i)),
  );

const inTime = { offsetMs: 0 };
const codes = (found: readonly { code: string }[]) => found.map(({ code }) => code);

describe('voices struck for others', () => {
  it.each([
    [18, 20, ['voice mapped']],
    [17, 20, ['wrong voice']],
    [8, 8, ['voice mapped']],
    [7, 7, ['wrong voice']],
    [3, 10, ['wrong voice']],
    [2, 10, []],
    [3, 59, ['wrong voice']],
    [3, 60, []],
  ])('%i of %i', (wrong, of, told) => {
    const struck = notes(of, (i) => (i < wrong ? { offsetMs: 0, voice: 'ride' } : inTime));
    expect(codes(voices(evidence(struck)))).toEqual(told);
  });
});

describe('extra strokes', () => {
  const beside = (count: number, crashes: number) =>
    voices(
      evidence(
        notes(200, () => inTime),
        Array.from({ length: count }, (_, i) => extra(i * 100, i < crashes ? 'crash' : 'ride')),
      ),
    ).map(({ text }) => text);

  it.each([
    [10, 10, []],
    [11, 11, ['11 extra strokes, most on crash.']],
    [12, 7, ['12 extra strokes, most on crash.']],
    [12, 6, ['12 extra strokes.']],
  ])('%i beside 200 notes, %i of them on the crash', (count, crashes, told) => {
    expect(beside(count, crashes)).toEqual(told);
  });
});

describe('drift', () => {
  const dragging = (count: number, stepMs: number, lastMs: number) =>
    codes(
      drift(
        evidence(
          Array.from({ length: count }, (_, i) =>
            answer(due(i === count - 1 ? lastMs : i * stepMs), { offsetMs: 2 * i }),
          ),
        ),
      ),
    );

  it('is told from 24 strokes on, over 15 seconds', () => {
    expect(dragging(24, 800, 23 * 800)).toEqual(['drift']);
    expect(dragging(23, 800, 22 * 800)).toEqual([]);
    expect(dragging(25, 625, 15_000)).toEqual(['drift']);
    expect(dragging(25, 625, 14_999)).toEqual([]);
  });

  it('is told when it adds up to what is noticed', () => {
    const over = (ms: number) =>
      codes(
        drift(
          evidence(
            Array.from({ length: 101 }, (_, i) =>
              answer(due(i * 200), { offsetMs: (ms * i) / 100 }),
            ),
          ),
        ),
      );
    expect([over(5.9), over(6.1)]).toEqual([[], ['drift']]);
  });
});

describe('levels', () => {
  // Wilson's lower bound is 0.112 for 5 of 20 and 0.081 for 4 of 20.
  it.each([
    [5, 20, ['too loud']],
    [4, 20, []],
    [7, 7, []],
    [8, 8, ['too loud']],
  ])('%i of %i ghosts too loud', (loud, of, told) => {
    const ghosts = notes(
      of,
      (i) => ({ offsetMs: 0, velocity: i < loud ? 60 : 40 }),
      () => ({ level: 'ghost' }),
    );
    expect(codes(levels(evidence(ghosts)))).toEqual(told);
  });

  it.each([
    [8, 8, true],
    [7, 8, false],
    [8, 7, false],
  ])('%i accents under %i ghosts', (accents, ghosts, told) => {
    const upsideDown = notes(
      accents + ghosts,
      (i) => ({ offsetMs: 0, velocity: i < accents ? 40 : 100 }),
      (i) => ({ level: i < accents ? 'accent' : 'ghost' }),
    );
    expect(codes(levels(evidence(upsideDown))).includes('levels inverted')).toBe(told);
  });
});

describe('missed notes', () => {
  // Wilson's lower bound is 0.1055 for 11 of 60 and 0.093 for 10 of 60.
  it.each([
    [11, ['many missed']],
    [10, []],
  ])('%i of 60, no position and no limb more than another', (missed, told) => {
    const played = notes(60, (i) => (i < missed ? undefined : inTime));
    expect(codes(missedNotes(evidence(played)))).toEqual(told);
  });
});

describe('a position', () => {
  const late = (cycles: number, ms: number) =>
    codes(
      positions(
        evidence(
          Array.from({ length: 40 }, (_, i) => i).flatMap((i) => [
            answer(due(i * 500, { position: 1 }), inTime),
            answer(due(i * 500 + 125, { position: 3 }), inTime),
            ...(i < cycles ? [answer(due(i * 500 + 250, { position: 2 }), { offsetMs: ms })] : []),
          ]),
        ),
      ),
    );

  it('is told from eight cycles on, and when it is noticed', () => {
    expect([late(8, 20), late(7, 20)]).toEqual([['position off'], []]);
    expect([late(8, 6.001), late(8, 6)]).toEqual([['position off'], []]);
  });
});

describe('a limb', () => {
  const leftLate = (count: number, ms: number) =>
    codes(
      limbPlaces(
        evidence(
          notes(
            40 + count,
            (i) => ({ offsetMs: i < count ? ms : 0 }),
            (i) => ({ limb: i < count ? 'L' : 'R' }),
          ),
        ),
      ),
    );

  it('is told from twelve strokes on, and when it is noticed', () => {
    expect([leftLate(12, 20), leftLate(11, 20)]).toEqual([['limb off'], []]);
    expect([leftLate(12, 6.001), leftLate(12, 6)]).toEqual([['limb off'], []]);
  });

  it('is uneven from one and a half times the rest on', () => {
    const leftSpreads = (ms: number) =>
      codes(
        unevenness(
          evidence(
            notes(
              400,
              (i) => ({ offsetMs: (i % 4 < 2 ? -1 : 1) * (i % 2 === 0 ? ms : 20) }),
              (i) => ({ limb: i % 2 === 0 ? 'L' : 'R' }),
            ),
          ),
        ),
      );
    expect([leftSpreads(30.05), leftSpreads(29.95)]).toEqual([['limb uneven'], ['wide spread']]);
  });
});
