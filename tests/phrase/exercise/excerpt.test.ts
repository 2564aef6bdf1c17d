import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { excerptOf } from '../../../src/phrase/exercise/excerpt';
import type { Excerpt } from '../../../src/phrase/exercise/excerpt-words';
import { excerptWords } from '../../../src/phrase/exercise/excerpt-words';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { writePhrase } from '../../../src/phrase/file/write-phrase';
import { expand } from '../../../src/phrase/layers/expand';
import { targetKey } from '../../../src/phrase/layers/target-key';
import { gridAt } from '../../../src/phrase/model/grid';
import type { Note } from '../../../src/phrase/model/note';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { beats, type Beats } from '../../../src/time/beats';
import { longRunCount } from '../../run-count';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { noteGrid } from '../note-grid';
import { layeredPhrase, phraseOf } from '../phrase-of';
import { LIBRARY_LAYERS } from './library-layers';

function taken(phrase: Phrase, layer: number, excerpt: Excerpt): Phrase {
  const made = excerptOf(phrase, layer, excerpt);
  if (!made.ok) throw new Error(made.errors[0]!.message);
  return made.value;
}

/** How a note sounds, and its partial from bar 1 beat 1 as it is written, whatever swings. */
const sound = ({ limb, voice, level, graceStep, graceOf }: Note) =>
  `${limb} ${voice} ${level} ${graceStep} ${graceOf ?? ''}`;
const writtenPartial = ({ bar, beat }: Note, phrase: Phrase, subdivision: number): number =>
  beat
    .sub(1)
    .add((bar - 1) * phrase.meter.beatsPerBar)
    .mul(subdivision)
    .valueOf();

/** The layer's own notes in the stretch, by onset from where the loop begins, from the whole target alone. */
function restricted(phrase: Phrase, layer: number, { from, to }: Excerpt): readonly string[] {
  const { subdivision, barPartials } = gridAt(phrase, layer);
  const startBeat = Math.floor(from / subdivision);
  return expand(phrase, layer, { bars: Math.max(0, Math.floor(to / barPartials) + 1) })
    .filter((note) => {
      const partial = writtenPartial(note, phrase, subdivision);
      return partial >= from && partial <= to;
    })
    .map((note) => `${note.onset.sub(startBeat).toFraction()} ${sound(note)}`)
    .sort();
}

/** Every loop of the excerpt is the restricted target, at the same distances; between loops there is a beat of rest, whole bars aside. */
function lawExcerptIsTheTargetRestricted(phrase: Phrase, layer: number, excerpt: Excerpt): void {
  const expected = restricted(phrase, layer, excerpt);
  const made = excerptOf(phrase, layer, excerpt);
  if (expected.length === 0) {
    expect(made.ok || made.errors[0]!.code).toBe('EXCERPT_EMPTY');
    return;
  }
  if (!made.ok) throw new Error(made.errors[0]!.message);
  const loop = made.value;
  expect(loop.layers).toHaveLength(1);
  const { from, to } = excerpt;
  const { barPartials } = gridAt(phrase, layer);
  const isBars = from % barPartials === 0 && (to + 1) % barPartials === 0;
  const rest = loop.cycle - (to + 1 - from);
  expect(rest, 'room to breathe').toSatisfy((partials: number) =>
    isBars ? partials === 0 : partials >= loop.subdivision,
  );
  const loopBeats = beats(loop.cycle, loop.subdivision);
  expect(loopBeats.d, 'whole beats').toBe(1n);
  expect(loop.meter.quartersPerBeat.equals(phrase.meter.quartersPerBeat), 'the same beat').toBe(
    true,
  );
  const notes = expand(loop, 1, { cycles: 3 });
  for (const cycle of [1, 2, 3]) {
    const start: Beats = loopBeats.mul(cycle - 1);
    const inLoop = notes
      .filter((note) => note.cycle === cycle)
      .map((note) => `${note.onset.sub(start).toFraction()} ${sound(note)}`)
      .sort();
    expect(inLoop).toEqual(expected);
  }
  expect(notes.filter(({ cycle }) => cycle === 0)).toEqual([]);
}

const stretch = fc
  .tuple(fc.integer({ min: -4, max: 90 }), fc.integer({ min: 0, max: 40 }))
  .map(([from, length]): Excerpt => ({ from, to: from + length }));

describe('an excerpt of every layer of the library', () => {
  it.each(LIBRARY_LAYERS)('$name, layer $layer', ({ phrase, layer }) => {
    fc.assert(
      fc.property(stretch, (excerpt) => lawExcerptIsTheTargetRestricted(phrase, layer, excerpt)),
      { numRuns: longRunCount(20) },
    );
  });
});

it('is as good as any phrase: its file gives it back', () => {
  fc.assert(
    fc.property(fc.constantFrom(...LIBRARY_LAYERS), stretch, ({ phrase, layer }, excerpt) => {
      const made = excerptOf(phrase, layer, excerpt);
      if (!made.ok) return;
      const again = parsePhrase(writePhrase(made.value));
      expect(again.ok && targetKey(again.value, 1)).toBe(targetKey(made.value, 1));
    }),
    { numRuns: longRunCount(60) },
  );
});

it('holds for phrases of every kind, where layers can tell the notes apart', () => {
  fc.assert(
    fc.property(arbitraryPhrase(), stretch, (phrase, excerpt) => {
      const layer = phrase.layers.length;
      const made = excerptOf(phrase, layer, excerpt);
      fc.pre(made.ok || made.errors[0]!.code !== 'EXERCISE_TOO_LARGE');
      lawExcerptIsTheTargetRestricted(phrase, layer, excerpt);
    }),
    { numRuns: longRunCount(300) },
  );
});

describe('the loop', () => {
  const SIXTEENTHS = phraseOf({ grouping: 'R L L R K' });

  it.each<[string, Excerpt, string, number]>([
    ['one partial: its beat, and one more', { from: 0, to: 0 }, '2/4', 8],
    ['a beat: one more to breathe', { from: 0, to: 3 }, '2/4', 8],
    [
      'across a beat: two, with less than a beat of rest, and one more',
      { from: 2, to: 6 },
      '3/4',
      12,
    ],
    [
      'one partial off the beat at either end: two beats leave a beat of rest',
      { from: 2, to: 5 },
      '2/4',
      8,
    ],
    ['a bar comes round as it is', { from: 16, to: 31 }, '4/4', 16],
    ['two bars come round as they are', { from: 0, to: 31 }, '4/4', 32],
    ['a bar from elsewhere breathes', { from: 4, to: 19 }, '5/4', 20],
    ['thirty-two beats are a bar yet', { from: 1, to: 124 }, '32/4', 128],
    ['more are bars of the phrase', { from: 1, to: 125 }, '4/4', 144],
  ])('%s', (_, excerpt, meter, cycle) => {
    const { meterText, ...loop } = taken(SIXTEENTHS, 1, excerpt);
    expect([meterText, loop.cycle]).toEqual([meter, cycle]);
  });

  it.each([
    ['6/8', { from: 0, to: 0 }, '6/8', 6],
    ['6/8', { from: 0, to: 4 }, '9/8', 9],
    ['7/8', { from: 0, to: 4 }, '7/8', 7],
    ['7/8', { from: 0, to: 1 }, '3/8', 3],
  ])('in %s keeps the kind of beat', (meter, excerpt, expected, cycle) => {
    const subdivision = meter === '6/8' ? 3 : 1;
    const loop = taken(phraseOf({ meter, subdivision, grouping: 'R L' }), 1, excerpt);
    expect([loop.meterText, loop.cycle]).toEqual([expected, cycle]);
    expect(loop.subdivision).toBe(subdivision);
  });

  it('may be as long as a cycle can be, and no longer', () => {
    expect(taken(SIXTEENTHS, 1, { from: 0, to: 511 }).cycle).toBe(512);
    const longer = excerptOf(SIXTEENTHS, 1, { from: 0, to: 527 });
    expect(longer.ok || longer.errors[0]!.code).toBe('EXCERPT_TOO_LONG');
  });

  it('takes the pickup in, on the beat before the bar', () => {
    const phrase = layeredPhrase({ grouping: 'R L R L' }, [
      { pickup: [{ partialsBefore: 1, limb: 'L', voice: 'high tom' }] },
    ]);
    const loop = taken(phrase, 2, { from: -1, to: 0 });
    expect(noteGrid(loop, 1)).toEqual(['high tom: - - - L - - - -', 'snare: - - - - R - - -']);
    expect(loop.title).toBe('Breakwater, pickup, 4 a to bar 1, 1');
  });

  it('keeps swing, grace notes and levels', () => {
    const phrase = layeredPhrase(
      { grouping: 'lR L', subdivision: 2, swing: '2:1' },
      [{ where: { limb: 'L' }, set: { level: 'ghost' } }],
      [{ where: { positions: [1] }, set: { level: 'accent' } }],
    );
    const loop = taken(phrase, 3, { from: 0, to: 1 });
    expect(noteGrid(loop, 1)).toEqual(['snare: lR> L. - -']);
    expect(expand(loop, 1, { cycles: 1 }).at(-1)!.onset.toFraction()).toBe('2/3');
  });

  it('is empty where nothing sounds, and says what to do', () => {
    const made = excerptOf(phraseOf({ grouping: 'R - - -' }), 1, { from: 1, to: 3 });
    expect(made.ok || made.errors).toEqual([
      { code: 'EXCERPT_EMPTY', message: 'Nothing is played here; mark some notes.' },
    ]);
  });
});

it.each<[Excerpt, string]>([
  [{ from: 5, to: 5 }, 'bar 1, 2 e'],
  [{ from: 5, to: 14 }, 'bar 1, 2 e to 4 &'],
  [{ from: 14, to: 16 }, 'bar 1, 4 & to bar 2, 1'],
  [{ from: 16, to: 31 }, 'bar 2'],
  [{ from: 16, to: 47 }, 'bars 2 to 3'],
  [{ from: -2, to: -1 }, 'pickup, 4 & to 4 a'],
])('an excerpt %o is called %s', (excerpt, words) => {
  expect(excerptWords(phraseOf({}).meter, 4, excerpt)).toBe(words);
});
