import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { checkDraft } from '../../../src/phrase/check/draft-check';
import { leadingHand } from '../../../src/phrase/exercise/leading-hand';
import { expand } from '../../../src/phrase/layers/expand';
import type { Limb } from '../../../src/phrase/model/limb';
import type { Note } from '../../../src/phrase/model/note';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { draftOf } from '../../../src/phrase/model/phrase-draft';
import { runCount } from '../../run-count';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { noteGrid } from '../note-grid';
import { layeredPhrase } from '../phrase-of';
import { LIBRARY_LAYERS } from './library-layers';

const CYCLES = { cycles: 4 };
const OTHER: Readonly<Record<Limb, Limb>> = { R: 'L', L: 'R', K: 'K', F: 'F' };

const line = (
  { onset, bar, cycle, position, graceStep, graceOf, limb, voice, level, layers }: Note,
  handOf: (limb: Limb) => Limb = (limb) => limb,
) =>
  [
    onset.toFraction(),
    bar,
    cycle,
    position,
    graceStep,
    graceOf && handOf(graceOf),
    handOf(limb),
    voice,
    level,
    layers,
  ].join(' ');

/** Nothing but the hands has changed, and changing them back gives the phrase. */
function lawHandsChangePlaces(phrase: Phrase): void {
  const other = leadingHand(phrase);
  phrase.layers.forEach((_, i) => {
    const expected = expand(phrase, i + 1, CYCLES).map((note) => line(note, (hand) => OTHER[hand]));
    const notes = expand(other, i + 1, CYCLES).map((note) => line(note));
    expect(notes.sort()).toEqual(expected.sort());
  });
  expect(checkDraft(draftOf(other)).ok).toBe(true);
  expect(draftOf(leadingHand(other))).toEqual(draftOf(phrase));
}

it('holds for every phrase of the library', () => {
  for (const phrase of new Set(LIBRARY_LAYERS.map((one) => one.phrase)))
    lawHandsChangePlaces(phrase);
});

it('holds for phrases of every kind', () => {
  fc.assert(fc.property(arbitraryPhrase(), lawHandsChangePlaces), { numRuns: runCount(300) });
});

it('takes grace notes, pickups and muted layers along', () => {
  const phrase = layeredPhrase({ grouping: 'lR L rlR K' }, [
    { pickup: [{ partialsBefore: 1, limb: 'L' }] },
    { where: { limb: 'L', nth: [1] }, set: { limb: 'R', voice: 'floor tom' } },
  ]);
  const other = leadingHand(phrase);
  expect(other.groupingText).toBe('rL R lrL K');
  expect(noteGrid(other, 2)).toEqual([
    'snare: rL - lrL -',
    'floor tom: - L - -',
    'bass drum: - - - K',
  ]);
  const muted = {
    ...phrase,
    layers: [phrase.layers[0]!, { name: 'M', changes: [], muted: phrase.layers[1]!.changes }],
  };
  expect(leadingHand(muted).layers[1]!.muted?.[0]).toEqual({
    kind: 'pickup',
    pickup: [{ partialsBefore: 1, limb: 'R' }],
  });
});
