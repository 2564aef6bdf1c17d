import { describe, expect, it } from 'vitest';
import { findingExercise } from '../../src/coach/finding-exercise';
import type { TimedNote } from '../../src/match/timed-note';
import { timedNotes } from '../../src/match/timed-notes';
import { exerciseOf } from '../../src/phrase/exercise/exercise';
import { expand } from '../../src/phrase/layers/expand';
import { steadyTempo } from '../../src/time/tempo';
import { layeredPhrase } from '../phrase/phrase-of';

/** Five over four: comes round after five bars, twenty beats, eighty partials. */
const phrase = layeredPhrase(
  { grouping: 'R L R L K' },
  [{ where: { positions: [3] }, set: { voice: 'floor tom' } }],
  [{ pickup: [{ partialsBefore: 1, limb: 'L' }] }],
);
const planOf = (layer: number) => ({
  phrase,
  passages: [{ fromBar: 1, layer }],
  tempo: steadyTempo(120),
  windows: {},
});
const dues = timedNotes(planOf(2), 40_000_000);
const at = (cycle: number, position: number): TimedNote =>
  dues.find(({ note }) => note.cycle === cycle && note.position === position)!;

describe('what a finding has to practise', () => {
  it('is the limb alone where the limb is told', () => {
    const left = dues.filter(({ note }) => note.limb === 'L');
    const drill = { kind: 'limb alone', name: 'left hand' } as const;
    expect(findingExercise(planOf(2), { drill, notes: left }, left[0]!)).toEqual({
      layer: 2,
      bpm: 120,
      exercise: { part: { limb: 'L' } },
    });
  });

  it.each([
    ['a note with the beat before its own', at(2, 3), [at(2, 3)], { from: 0, to: 7 }],
    ['two notes and what is between', at(2, 3), [at(2, 3), at(2, 5)], { from: 0, to: 9 }],
    ['not what is a bar away', at(2, 3), [at(2, 3), at(5, 5)], { from: 0, to: 7 }],
    ['the last place within a bar', at(2, 3), [at(2, 3), at(5, 3)], { from: 0, to: 22 }],
    ['what has come round, where it is first', at(18, 3), [at(18, 3)], { from: 0, to: 7 }],
    [
      'at the beginning, what leads in when it has come round',
      at(1, 1),
      [at(1, 1)],
      { from: 76, to: 80 },
    ],
  ])('is %s', (_, first, notes, excerpt) => {
    const drill = { kind: 'these notes' } as const;
    expect(findingExercise(planOf(2), { drill, notes }, first)).toEqual({
      layer: 2,
      bpm: 120,
      exercise: { excerpt },
    });
    const exercise = exerciseOf(phrase, 2, { excerpt });
    if (!exercise.ok) throw new Error(exercise.errors[0]!.message);
    const { voice, limb } = first.note;
    expect(expand(exercise.value.phrase, 1, { cycles: 1 })).toContainEqual(
      expect.objectContaining({ voice, limb }),
    );
  });

  it('of the pickup is played into the beat that it leads to', () => {
    const pickup = timedNotes(planOf(3), 1_000_000).find(({ note }) => note.cycle === 0)!;
    const drill = { kind: 'these notes' } as const;
    expect(findingExercise(planOf(3), { drill, notes: [pickup] }, pickup)?.exercise).toEqual({
      excerpt: { from: -1, to: 3 },
    });
  });

  it.each([
    [{ kind: 'these notes slower' }, { bpm: 90, exercise: { excerpt: { from: 0, to: 7 } } }],
    [{ kind: 'layer slower' }, { bpm: 90, exercise: undefined }],
    [
      { kind: 'other layer', layer: 1 },
      { layer: 1, exercise: undefined },
    ],
    [
      { kind: 'turns', cycles: 2 },
      { bpm: 120, exercise: { answerCycles: 2 } },
    ],
    [
      { kind: 'other tempo', bpm: 113 },
      { bpm: 113, exercise: undefined },
    ],
  ] as const)('is what the advice says: %o', (drill, exercise) => {
    const found = findingExercise(planOf(2), { drill, notes: [at(2, 3)] }, at(2, 3));
    expect(found).toEqual({ layer: 2, bpm: 120, ...exercise });
  });

  it.each([undefined, { kind: 'rig offset' }, { kind: 'note map' }] as const)(
    'is nothing to play for %o',
    (drill) => {
      expect(findingExercise(planOf(2), { drill, notes: dues }, dues[0]!)).toBeUndefined();
    },
  );
});
