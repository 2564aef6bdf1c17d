import { expect, it } from 'vitest';
import { byTempoWords } from '../../src/coach/by-tempo-words';
import { tempoLooks } from '../../src/coach/tempo-looks';
import type { Slip } from '../../src/coach/place/slip';
import { timedNotes } from '../../src/match/timed-notes';
import { beats } from '../../src/time/beats';
import { tempoMap } from '../../src/time/tempo';
import { BOUNDARIES, harbourPlan, judged, later, play } from './practice-take';

/** Sixteen bars at 92, then as many at 96; of an earlier layer two before them. */
function looks(lateMs: number, slips?: readonly Slip[]) {
  const plan = {
    ...harbourPlan(),
    passages: [
      { fromBar: 1, layer: 1 },
      { fromBar: 3, layer: 2 },
    ],
    tempo: tempoMap([
      { fromBeat: beats(0), bpm: 92 },
      { fromBeat: beats(72), bpm: 96 },
    ]),
  };
  const notes = timedNotes(plan, plan.tempo.usAt(beats(136)) - 1);
  const strokes = play(notes, { spreadMs: 4, velocitySpread: 5 }, 3, (stroke, { note }) =>
    note.limb === 'L' && note.bar > 18 ? later(stroke, lateMs) : stroke,
  );
  return tempoLooks(plan, judged(notes, strokes), () => BOUNDARIES, {}, slips);
}

it('are of the layer played last, the last tempo first', () => {
  expect(looks(20).map(({ bpm, code }) => [bpm, code])).toEqual([
    [96, 'limb off'],
    [92, 'even'],
  ]);
  expect(byTempoWords(looks(20))).toMatch(/^Even to 92; at 96, left hand (19|20|21) ms late/);
  expect(byTempoWords(looks(0))).toBe('Even from 92 to 96.');
});

it('know where the take had lost its place, as the log does', () => {
  const slip = {
    partials: 1,
    fromUs: 0,
    toUs: undefined,
    certainUs: 0,
    passage: 1,
    repeats: 16,
  };
  expect(looks(20, [slip]).map(({ code }) => code)).toEqual(['lost place', 'lost place']);
  expect(looks(20, []).map(({ code }) => code)).toEqual(['limb off', 'even']);
});
