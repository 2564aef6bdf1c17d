import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layerParts } from '../../../src/phrase/exercise/layer-parts';
import { partOf, type Part } from '../../../src/phrase/exercise/part';
import { expand } from '../../../src/phrase/layers/expand';
import { LIMBS } from '../../../src/phrase/model/limb';
import type { Note } from '../../../src/phrase/model/note';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { VOICES } from '../../../src/phrase/model/voice';
import { runCount } from '../../run-count';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { noteGrid, pickupGrid } from '../note-grid';
import { layeredPhrase, phraseOf } from '../phrase-of';
import { LIBRARY_LAYERS } from './library-layers';

const CYCLES = { cycles: 5 };

const line = ({ onset, bar, cycle, position, graceStep, graceOf, limb, voice, level }: Note) =>
  [onset.toFraction(), bar, cycle, position, graceStep, graceOf, limb, voice, level].join(' ');

/** Whether a note is asked for, told from the whole target alone: it and its main note are of the part. */
function isAsked(note: Note, notes: readonly Note[], part: Part): boolean {
  const isOwn = ({ limb, voice }: Note) =>
    ('limb' in part ? limb === part.limb : voice === part.voice) !== (part.allBut ?? false);
  const main = notes.find(
    ({ onset, graceStep, limb }) =>
      graceStep === 0 && limb === note.graceOf && onset.equals(note.onset),
  );
  return isOwn(note) && (note.graceStep === 0 || isOwn(main!));
}

/** The part is what is asked of the whole, unmoved and unchanged; where that is nothing there is no part. */
function lawPartIsTheWholeRestricted(phrase: Phrase, layer: number, part: Part): void {
  const whole = expand(phrase, layer, CYCLES);
  const expected = whole.filter((note) => isAsked(note, whole, part)).map(line);
  const left = partOf(phrase, layer, part);
  if (!left.ok) {
    expect(expected).toEqual([]);
    return;
  }
  expect(left.value.layers).toHaveLength(1);
  expect(expand(left.value, 1, CYCLES).map(line)).toEqual(expected);
}

const limbParts: readonly Part[] = LIMBS.map((limb) => ({ limb }));
const everyPart = (phrase: Phrase, layer: number): readonly Part[] => {
  const { limbs, voices } = layerParts(phrase, layer);
  const own: Part[] = [...limbs.map((limb) => ({ limb })), ...voices.map((voice) => ({ voice }))];
  return own.flatMap((part) => [part, { ...part, allBut: true }]);
};

it.each(LIBRARY_LAYERS)('every part of $name, layer $layer', ({ phrase, layer }) => {
  for (const part of everyPart(phrase, layer)) lawPartIsTheWholeRestricted(phrase, layer, part);
});

it('holds for phrases of every kind', () => {
  const parts = fc.constantFrom<Part>(...limbParts, ...VOICES.map((voice) => ({ voice })));
  fc.assert(
    fc.property(arbitraryPhrase(), parts, fc.boolean(), (phrase, part, allBut) => {
      const left = partOf(phrase, phrase.layers.length, { ...part, allBut });
      // A limb that the layer has not: nothing is at rest that sounded.
      fc.pre(left.ok || left.errors[0]!.code !== 'EXERCISE_TOO_LARGE');
      lawPartIsTheWholeRestricted(phrase, phrase.layers.length, { ...part, allBut });
    }),
    { numRuns: runCount(300) },
  );
});

describe('a part', () => {
  const phrase = layeredPhrase(
    { grouping: 'R L lR+K L', title: 'Breakwater' },
    [{ where: { limb: 'R' }, set: { voice: 'ride' } }],
    [{ pickup: [{ partialsBefore: 1, limb: 'L' }] }],
  );
  const left = (part: Part) => {
    const made = partOf(phrase, 3, part);
    if (!made.ok) throw new Error(made.errors[0]!.message);
    return made.value;
  };

  it('of one limb has no grace note of the other hand, and no grace note without its main note', () => {
    expect(noteGrid(left({ limb: 'R' }), 1)).toEqual(['ride: R - R -']);
    expect(noteGrid(left({ limb: 'L' }), 1)).toEqual(['snare: - L - L']);
    expect(pickupGrid(left({ limb: 'L' }), 1)).toEqual(['snare: L']);
    expect(pickupGrid(left({ limb: 'R' }), 1)).toEqual([]);
  });

  it('of all but one keeps the rest together', () => {
    expect(noteGrid(left({ limb: 'K', allBut: true }), 1)).toEqual([
      'ride: R - lR -',
      'snare: - L - L',
    ]);
    expect(noteGrid(left({ voice: 'ride', allBut: true }), 1)).toEqual([
      'snare: - L - L',
      'bass drum: - - K -',
    ]);
  });

  it('is named in title and layer', () => {
    const { title, layers } = left({ voice: 'snare' });
    expect([title, layers.map(({ name }) => name)]).toEqual([
      'Breakwater, snare alone',
      ['Layer 3, snare alone'],
    ]);
  });

  it('that the layer does not have is told', () => {
    const none = partOf(phrase, 3, { limb: 'F' });
    expect(none.ok || none.errors).toEqual([
      {
        code: 'PART_EMPTY',
        message: 'Nothing of this layer is left for left foot alone; choose another part.',
      },
    ]);
  });
});

it('a layer of more changes than one may have is cut into several', () => {
  const accent = { where: { positions: [1] }, set: { level: 'accent' as const } };
  const many = layeredPhrase(
    {},
    Array.from({ length: 64 }, () => accent),
  );
  const left = partOf(many, 2, { limb: 'L' });
  expect(left.ok && left.value.layers.map(({ changes }) => changes.length)).toEqual([64, 1]);
});

it('the limbs and voices of a layer are those of its main notes', () => {
  expect(layerParts(phraseOf({ grouping: 'lR K' }), 1)).toEqual({
    limbs: ['R', 'K'],
    voices: ['snare', 'bass drum'],
  });
});
