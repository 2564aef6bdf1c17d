import { describe, expect, it } from 'vitest';
import { LiveTimeline } from '../../src/live/live-timeline';
import { exerciseOf, type ExerciseChoice } from '../../src/phrase/exercise/exercise';
import { layerParts } from '../../src/phrase/exercise/layer-parts';
import type { Phrase } from '../../src/phrase/model/phrase';
import type { TimedNote } from '../../src/match/timed-note';
import { beats } from '../../src/time/beats';
import { LIBRARY_LAYERS } from '../phrase/exercise/library-layers';
import { layeredPhrase } from '../phrase/phrase-of';

const UNTIL_US = 12_000_000;

const timelineOf = (phrase: Phrase, layer: number, whole?: Phrase) => {
  const timeline = new LiveTimeline({
    phrase,
    whole,
    passages: [{ fromBar: 1, layer }],
    tempos: [{ fromBeat: beats(0), bpm: 100 }],
    windows: {},
    countInBars: 0,
  });
  timeline.extendTo(UNTIL_US);
  return timeline;
};

const line = ({
  timeUs,
  note: { cycle, position, limb, graceStep, graceOf, voice, level },
}: TimedNote) => [timeUs, cycle, position, limb, graceStep, graceOf, voice, level].join(' ');

/** What is due and what the app plays are the whole target together, and nothing is both. */
function lawNothingIsPlayedTwice(phrase: Phrase, layer: number, choice: ExerciseChoice): void {
  const exercise = exerciseOf(phrase, layer, choice);
  if (!exercise.ok) throw new Error(exercise.errors[0]!.message);
  const own = timelineOf(
    exercise.value.phrase,
    exercise.value.phrase.layers.length,
    exercise.value.whole,
  );
  const whole = exercise.value.whole ?? exercise.value.phrase;
  const expected = timelineOf(whole, whole.layers.length).notes.map(line);
  const [due, played] = [own.notes.map(line), own.accompaniment.map(line)];
  expect([...due, ...played].sort()).toEqual(expected.sort());
  expect(due.filter((note) => played.includes(note))).toEqual([]);
}

it.each(LIBRARY_LAYERS)('of every exercise on $name, layer $layer', ({ phrase, layer }) => {
  const { limbs, voices } = layerParts(phrase, layer);
  for (const limb of limbs) lawNothingIsPlayedTwice(phrase, layer, { part: { limb } });
  for (const voice of voices) {
    lawNothingIsPlayedTwice(phrase, layer, { part: { voice, allBut: voices.length > 1 } });
    lawNothingIsPlayedTwice(phrase, layer, { part: { voice }, answerCycles: 2 });
  }
  lawNothingIsPlayedTwice(phrase, layer, { answerCycles: 1 });
});

describe('a change of tempo', () => {
  const PHRASE = layeredPhrase({ grouping: 'R L K L' }, [
    { pickup: [{ partialsBefore: 1, limb: 'R' }] },
  ]);
  const made = exerciseOf(PHRASE, 2, { part: { limb: 'L' } });
  if (!made.ok) throw new Error(made.errors[0]!.message);
  const { phrase, whole } = made.value;

  it('moves what the app plays as it moves what is due', () => {
    const timeline = timelineOf(phrase, 1, whole);
    timeline.changeTempo(60, 3_000_000);
    timeline.extendTo(UNTIL_US);
    const again = timelineOf(whole!, 1);
    again.changeTempo(60, 3_000_000);
    again.extendTo(UNTIL_US);
    expect([...timeline.notes, ...timeline.accompaniment].map(line).sort()).toEqual(
      again.notes.map(line).sort(),
    );
  });

  it('from the beginning keeps the pickup', () => {
    const timeline = timelineOf(phrase, 1, whole);
    timeline.changeTempo(60, 0);
    timeline.extendTo(UNTIL_US);
    expect(timeline.accompaniment[0]!.note.cycle).toBe(0);
    expect(timeline.accompaniment.filter(({ note }) => note.cycle === 0)).toHaveLength(1);
  });
});
