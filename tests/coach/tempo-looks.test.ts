import { expect, it } from 'vitest';
import { byTempoWords } from '../../src/coach/by-tempo-words';
import { tempoLooks } from '../../src/coach/tempo-looks';
import { timedNotes } from '../../src/match/timed-notes';
import { beats } from '../../src/time/beats';
import { tempoMap } from '../../src/time/tempo';
import { BOUNDARIES, harbourPlan, judged, later, play } from './practice-take';

/** Sixteen bars at 92, then as many at 96; of an earlier layer two before them. */
function looks(lateMs: number) {
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
  return tempoLooks(plan, judged(notes, strokes), () => BOUNDARIES);
}

it('are of the layer played last, the last tempo first', () => {
  expect(looks(20).map(({ bpm, code }) => [bpm, code])).toEqual([
    [96, 'limb off'],
    [92, 'even'],
  ]);
  expect(byTempoWords(looks(20))).toMatch(/^Even to 92; at 96, left hand (19|20|21) ms late/);
  expect(byTempoWords(looks(0))).toBe('Even from 92 to 96.');
});
