import { describe, expect, it } from 'vitest';
import { drillWords } from '../../src/coach/drill';
import { findingExercise, type FindingExercise } from '../../src/coach/finding-exercise';
import { wording, type FactsOf, type FindingCode } from '../../src/coach/wording';
import type { TimedNote } from '../../src/match/timed-note';
import { timedNotes } from '../../src/match/timed-notes';
import { exerciseOf } from '../../src/phrase/exercise/exercise';
import { expand } from '../../src/phrase/layers/expand';
import { limbName } from '../../src/phrase/model/limb';
import type { Note } from '../../src/phrase/model/note';
import type { Phrase } from '../../src/phrase/model/phrase';
import { beats } from '../../src/time/beats';
import { steadyTempo } from '../../src/time/tempo';
import { LIBRARY_LAYERS } from '../phrase/exercise/library-layers';

const SURE = { strokes: 128, bars: 16, interval: { lower: -23, upper: -17 } };

/** Findings that are told of the notes of one position, with the facts that a take could show there. */
function toldOf(
  due: TimedNote,
  layer: number,
  bpm: number,
): readonly (readonly [FindingCode, FactsOf<FindingCode>])[] {
  const { voice, limb, position } = due.note;
  const name = `position ${position}`;
  const placing = { name, ms: -20, isOwn: false, sure: SURE };
  const share = { name, times: 9, of: 12 };
  const told: { readonly [Code in FindingCode]?: FactsOf<Code> } = {
    'other tempo': { playedBpm: bpm - 4, clickBpm: bpm },
    swing: { played: 1.5, written: 2, sure: SURE },
    'partial off': { ...placing, isOfLimb: false },
    'limb off': { ...placing, name: limbName(limb) },
    'voice off': { ...placing, name: voice },
    'level off': { ...placing, name: 'accents' },
    ...(layer > 1 && { 'layer off': { ...placing, layer } }),
    'position off': placing,
    'transition off': placing,
    'unison off': { ...placing, limbs: [limbName(limb), 'left foot'] },
    'spread apart': { name, ms: 22, restMs: 12 },
    spread: { ms: 21 },
    missed: share,
    'own notes wrong': { layerName: 'Own', how: 'missed', times: 9, of: 12 },
    'too loud': { ...share, level: 'ghost', db: 4 },
    'too soft': { ...share, level: 'accent', db: 4 },
    'wrong voice': { written: voice, struck: 'crash', times: 9, name: limbName(limb) },
  };
  return Object.entries(told) as never;
}

interface Made {
  /** What is played of it, four cycles long; of the layer itself where that is all. */
  readonly notes: readonly Note[];
  readonly title: string;
}
type Started = FindingExercise & Made;

/** What a reader of the advice expects of its button, by the advice's words alone. */
const EXPECTED: readonly (readonly [
  RegExp,
  (
    words: RegExpExecArray,
    started: Started,
    due: TimedNote,
    from: { layer: number; bpm: number },
  ) => void,
])[] = [
  [
    /^practise these notes( slower)?$/,
    ([, slower], started, { note }, { layer, bpm }) => {
      expect(started.layer).toBe(layer);
      expect(started.bpm).toBe(slower ? (bpm * 3) / 4 : bpm);
      const isThere = started.notes.some(
        ({ voice, limb, level }) =>
          voice === note.voice && limb === note.limb && level === note.level,
      );
      expect(isThere).toBe(true);
      expect(started.title).toMatch(/, (bars? \d|pickup)/);
    },
  ],
  [
    /^practise the layer slower$/,
    (_, started, __, { layer, bpm }) => {
      expect(started).toMatchObject({ layer, bpm: (bpm * 3) / 4, exercise: undefined });
    },
  ],
  [
    /^practise the (.+) alone$/,
    ([, name], started, __, { layer, bpm }) => {
      expect(started).toMatchObject({ layer, bpm });
      expect(new Set(started.notes.map(({ limb }) => limbName(limb)))).toEqual(new Set([name]));
      expect(started.title).toContain(`${name} alone`);
    },
  ],
  [
    /^practise layer (\d+)$/,
    ([, named], started, __, { bpm }) => {
      expect(started).toMatchObject({ layer: Number(named), bpm, exercise: undefined });
    },
  ],
  [
    /^hear (\w+) cycles, answer \1$|^hear two cycles, answer two$/,
    (_, started, __, { layer, bpm }) => {
      expect(started).toMatchObject({ layer, bpm });
      const answered = new Set(started.notes.map(({ cycle }) => cycle));
      expect([...answered].filter((cycle) => cycle > 0)).toEqual([3, 4]);
      expect(started.title).toContain('hear two cycles, answer two');
    },
  ],
  [
    /^practise at (\d+)$/,
    ([, named], started, __, { layer }) => {
      expect(started).toMatchObject({ layer, bpm: Number(named), exercise: undefined });
    },
  ],
];

function start(phrase: Phrase, found: FindingExercise, known: Map<string, Made>): Started {
  const key = JSON.stringify([found.layer, found.exercise]);
  const made = known.get(key) ?? make(phrase, found);
  known.set(key, made);
  return { ...found, ...made };
}

function make(phrase: Phrase, found: FindingExercise): Made {
  const made = exerciseOf(phrase, found.layer, found.exercise ?? {});
  if (!made.ok) throw new Error(made.errors[0]!.message);
  const own = made.value.phrase;
  const notes = expand(own, own.layers.length, { cycles: 4 });
  return { notes, title: own.layers.at(-1)!.name };
}

describe('a finding’s button starts what the words of its advice say', () => {
  it.each(LIBRARY_LAYERS.map((one) => [one.name, one.layer, one.phrase] as const))(
    '%s, layer %i: every finding there can be, at every note of a cycle',
    (_, layer, phrase) => {
      const bpm = phrase.tempoBpm;
      const tempo = steadyTempo(bpm);
      const plan = { phrase, passages: [{ fromBar: 1, layer }], tempo, windows: {} };
      const dues = timedNotes(plan, tempo.usAt(beats(12 * phrase.meter.beatsPerBar)));
      const known = new Map<string, Made>();
      const kinds = new Set<FindingCode>();
      const firsts = dues.filter(
        ({ note }, i) =>
          note.graceStep === 0 &&
          dues.findIndex(
            (other) =>
              other.note.position === note.position &&
              other.note.limb === note.limb &&
              other.note.graceStep === 0,
          ) === i,
      );
      for (const due of firsts) {
        const notes = dues.filter(
          ({ note }) => note.position === due.note.position && note.limb === due.note.limb,
        );
        for (const [code, facts] of toldOf(due, layer, bpm)) {
          const { drill, advice } = wording(code, facts as never);
          const words = drillWords(drill!);
          expect(advice.toLowerCase()).toContain(words);
          const found = findingExercise(plan, { drill, notes }, due);
          const rule = EXPECTED.find(([pattern]) => pattern.test(words));
          if (!rule || !found) throw new Error(`${code}: nothing starts for "${words}"`);
          rule[1](rule[0].exec(words)!, start(phrase, found, known), due, { layer, bpm });
          kinds.add(code);
        }
      }
      expect(kinds.size).toBe(layer > 1 ? 17 : 16);
    },
  );
});
