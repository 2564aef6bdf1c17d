import { describe, expect, it } from 'vitest';
import { comparisons, type JudgedTake } from '../../../src/coach/comparison/comparisons';
import { exerciseOf, type ExerciseChoice } from '../../../src/phrase/exercise/exercise';
import { targetKey } from '../../../src/phrase/layers/target-key';
import { steadyTempo } from '../../../src/time/tempo';
import {
  BOUNDARIES,
  harbourNotes,
  harbourPlan,
  HUMAN,
  judged,
  later,
  play,
} from '../practice-take';

const plan = harbourPlan();
const notes = harbourNotes(16);

const take = (leftMs: number, seed: number, layer = 2): JudgedTake => {
  const dues = layer === 2 ? notes : harbourNotes(16, layer);
  const strokes = play(dues, HUMAN, seed, (stroke, { note }) =>
    note.limb === 'L' ? later(stroke, leftMs) : stroke,
  );
  return {
    plan: layer === 2 ? plan : harbourPlan(layer),
    judgement: judged(dues, strokes),
    boundaries: () => BOUNDARIES,
    slips: [],
  };
};

const exercise = (choice: ExerciseChoice, bpm = 72) => {
  const found = exerciseOf(plan.phrase, 2, choice);
  if (!found.ok) throw new Error(found.errors[0]!.message);
  const { phrase } = found.value;
  return { target: targetKey(phrase, phrase.layers.length), bpm };
};

describe('what has changed since an earlier take', () => {
  it('is told where it is larger than chance, in the words of what was told', () => {
    const [only, ...others] = comparisons(take(20, 1), take(6, 2));
    expect(others).toEqual([]);
    expect(only).toMatchObject({ code: 'limb off', difference: 'other' });
    expect(only!.text).toMatch(/^Left hand [5-8] ms late, was (19|20|21)\.$/);
  });

  it('is told as the same where it is', () => {
    const [only] = comparisons(take(20, 1), take(20, 2));
    expect(only).toMatchObject({ difference: 'same' });
    expect(only!.text).toMatch(/^Left hand (19|20|21) ms late, about the same as before\.$/);
  });

  it('is open where the second take is too short', () => {
    const short = harbourNotes(2);
    const strokes = play(short, HUMAN, 3, (stroke) => stroke);
    const after = { ...take(20, 1), judgement: judged(short, strokes) };
    expect(comparisons(take(20, 1), after)).toMatchObject([
      { difference: 'open', text: 'Left hand: not enough strokes to say what changed.' },
    ]);
  });

  it('is open of a tempo where the second take has fewer than six bars', () => {
    const quicker = (bars: number, seed: number): JudgedTake => {
      const dues = harbourNotes(bars);
      const judgement = judged(dues, play(dues, { ...HUMAN, driftMsPerMinute: -1800 }, seed));
      return { plan, judgement, boundaries: () => BOUNDARIES, slips: [] };
    };
    const differences = (bars: number) =>
      comparisons(quicker(16, 1), quicker(bars, 2)).map(({ code, difference }) => [
        code,
        difference,
      ]);
    expect(differences(5)).toEqual([['other tempo', 'open']]);
    expect(differences(6)).toEqual([['other tempo', 'same']]);
  });

  it('is told of levels where all is struck on one voice', () => {
    const snareOnly = {
      title: 'One drum',
      meter: '4/4',
      tempoBpm: 96,
      subdivision: 4,
      grouping: 'R L R L',
      layers: [
        { name: 'Sticking' },
        { name: 'Dynamics', changes: [{ where: { limb: 'L' }, set: { level: 'ghost' } }] },
      ],
    };
    const dues = harbourNotes(16, 2, snareOnly);
    const withLoudGhosts = (every: number, seed: number): JudgedTake => {
      let ghosts = 0;
      const strokes = play(dues, HUMAN, seed, (stroke, { note }) =>
        note.level === 'ghost' && ++ghosts % every === 0 ? { ...stroke, velocity: 80 } : stroke,
      );
      const judgement = judged(dues, strokes);
      const played = { plan: harbourPlan(2, snareOnly), judgement };
      return { ...played, boundaries: () => BOUNDARIES, slips: [] };
    };
    const [only] = comparisons(withLoudGhosts(3, 1), withLoudGhosts(31, 2));
    expect(only).toMatchObject({ code: 'too loud', difference: 'other' });
    expect(only!.text).toBe('Snare ghosts too loud: 4 of 128, was 42 of 128.');
  });

  it('is nothing of a take that was told nothing, and of other notes', () => {
    expect(comparisons(take(0, 1), take(20, 2))).toEqual([]);
    expect(comparisons(take(20, 1), take(6, 2, 1))).toEqual([]);
    const nothing = { ...take(20, 1), judgement: { notes: [], extras: [] } };
    expect(comparisons(nothing, nothing)).toEqual([]);
  });

  it('notes another tempo', () => {
    const slower = { ...plan, tempo: steadyTempo(88) };
    const [only] = comparisons(take(20, 1), { ...take(6, 2), plan: slower });
    expect(only!.text).toMatch(/ ms late at 88, was \d+ at 96\.$/);
  });

  it.each([
    ['its exercise', [exercise({ part: { limb: 'L' } })], 1],
    ['another limb', [exercise({ part: { limb: 'R' } })], 0],
    ['a stretch of it', [exercise({ excerpt: { from: 0, to: 7 } })], 0],
    ['nothing', [], 0],
  ])('of what was told, what was practised: %s', (_, between, told) => {
    expect(comparisons(take(20, 1), take(6, 2), between)).toHaveLength(told);
  });
});

describe('lawATakeBesideItself', () => {
  it.each([0, 8, 20, 40])('is never told of a change: left hand %d ms late', (ms) => {
    for (let seed = 10; seed < 14; seed++) {
      const one = take(ms, seed);
      for (const { difference } of comparisons(one, one)) expect(difference).not.toBe('other');
    }
  });
});
