import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answering } from '../../../src/phrase/exercise/answering';
import { exerciseOf } from '../../../src/phrase/exercise/exercise';
import { expand } from '../../../src/phrase/layers/expand';
import type { Note } from '../../../src/phrase/model/note';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { runCount } from '../../run-count';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { noteGrid, pickupGrid } from '../note-grid';
import { layeredPhrase, phraseOf } from '../phrase-of';
import { LIBRARY_LAYERS } from './library-layers';

const line = ({ onset, cycle, position, graceStep, limb, voice, level }: Note) =>
  [onset.toFraction(), cycle, position, graceStep, limb, voice, level].join(' ');

/** Turn and turn about: the second so many cycles of each four, six ... are the whole's own, the others and the pickup rest. */
function lawOnlyTheAnswerIsAsked(phrase: Phrase, layer: number, cycles: number): void {
  const answer = answering(phrase, layer, cycles);
  if (!answer.ok) {
    expect(2 * cycles * phrase.cycle).toBeGreaterThan(4096);
    return;
  }
  const span = { cycles: 4 * cycles + 1 };
  const expected = expand(phrase, layer, span)
    .filter(({ cycle }) => cycle > 0 && Math.floor((cycle - 1) / cycles) % 2 === 1)
    .map(line);
  expect(expand(answer.value, answer.value.layers.length, span).map(line)).toEqual(expected);
}

it.each(LIBRARY_LAYERS)('answers $name, layer $layer', ({ phrase, layer }) => {
  for (const cycles of [1, 2, 4]) lawOnlyTheAnswerIsAsked(phrase, layer, cycles);
});

it('holds for phrases of every kind', () => {
  fc.assert(
    fc.property(arbitraryPhrase(), fc.integer({ min: 1, max: 4 }), (phrase, cycles) => {
      const answer = answering(phrase, phrase.layers.length, cycles);
      fc.pre(answer.ok || answer.errors[0]!.code !== 'EXERCISE_TOO_LARGE');
      lawOnlyTheAnswerIsAsked(phrase, phrase.layers.length, cycles);
    }),
    { numRuns: runCount(300) },
  );
});

describe('turns', () => {
  it('begin with the displaced cycle, and the pickup is heard', () => {
    const phrase = layeredPhrase(
      { grouping: 'R L K' },
      [{ displace: -1 }],
      [{ pickup: [{ partialsBefore: 1, limb: 'R' }] }],
    );
    const answer = answering(phrase, 3, 1);
    if (!answer.ok) throw new Error(answer.errors[0]!.message);
    expect(noteGrid(answer.value, 1, 4)).toEqual([
      'snare: - - - R L - - - - R L -',
      'bass drum: - - - - - K - - - - - K',
    ]);
    expect(pickupGrid(answer.value, 1)).toEqual([]);
  });

  it('are as long as a pattern can be, and no longer', () => {
    const long = phraseOf({ grouping: 'R L', cycle: 512 });
    expect(answering(long, 1, 4).ok).toBe(true);
    const longer = answering(long, 1, 5);
    expect(longer.ok || longer.errors[0]!.code).toBe('TURNS_TOO_LONG');
  });
});

describe('an exercise of several choices', () => {
  const phrase = phraseOf({ grouping: 'R L R K', title: 'Slip' });
  const made = (choice: Parameters<typeof exerciseOf>[2]) => {
    const exercise = exerciseOf(phrase, 1, choice);
    if (!exercise.ok) throw new Error(exercise.errors[0]!.message);
    return exercise.value;
  };

  it('takes the excerpt first, then the part, then the turns', () => {
    const { phrase: own, whole } = made({
      excerpt: { from: 0, to: 3 },
      part: { limb: 'R' },
      answerCycles: 1,
    });
    expect(own.title).toBe('Slip, bar 1, 1 to 1 a, right hand alone, hear one cycle, answer one');
    expect(noteGrid(own, 1, 2)).toEqual(['snare: - - - - - - - - R - R - - - - -']);
    expect(noteGrid(whole!, 1, 1)).toEqual([
      'snare: R L R - - - - -',
      'bass drum: - - - K - - - -',
    ]);
  });

  it('has the rest played unless it is to rest; what is answered is always heard before', () => {
    expect(made({ excerpt: { from: 0, to: 3 } }).whole).toBeUndefined();
    expect(made({ part: { limb: 'R' } }).whole?.title).toBe('Slip');
    expect(made({ part: { limb: 'R' }, isRestHeard: false }).whole).toBeUndefined();
    expect(made({ answerCycles: 2 }).whole?.title).toBe('Slip');
    expect(made({ part: { limb: 'R' }, isRestHeard: false, answerCycles: 2 }).whole?.title).toBe(
      'Slip, right hand alone',
    );
  });
});
