import { describe, expect, it } from 'vitest';
import { descriptionLength } from '../../src/phrase/decompose/description-length';
import { patternFrom, takenApart } from '../phrase/decompose/taken-apart';

/** [M] Percussive Arts Society, International Drum Rudiments (1984): sticking and accents as printed. */
describe('printed rudiments', () => {
  it.each([
    ['single paradiddle', 'R> L R R L> R L L', [1, 5]],
    ['double paradiddle', 'R> L R L R R L> R L R L L', [1, 7]],
    ['triple paradiddle', 'R> L R L R L R R L> R L R L R L L', [1, 9]],
    ['paradiddle-diddle', 'R> L R R L L', [1]],
  ])('%s: the sticking as root, the accents as one layer', (_, sticking, accents) => {
    const phrase = takenApart(patternFrom(sticking));
    expect(phrase.groupingText).toBe(sticking.replaceAll('>', ''));
    expect(phrase.cycle).toBe(phrase.grouping.length);
    expect(phrase.layers.map((layer) => layer.name)).toEqual(['Sticking', 'Accents']);
    expect(phrase.layers[1]!.changes).toHaveLength(1);
    // The accents named one by one are an upper bound: name, "positions", each of them, "accent".
    const byHand = phrase.grouping.length + 3 + accents.length;
    expect(descriptionLength(phrase)).toBeLessThanOrEqual(byHand);
  });
});

/**
 * [M] Toussaint, The Euclidean Algorithm Generates Traditional Musical Rhythms, BRIDGES 2005: rhythms
 * E(k, n) with their intervals; where all but the last are alike, they are one group cut short.
 */
describe('Euclidean rhythms', () => {
  it.each([
    ['E(3,8) = (3 3 2)', 'R - - R - - R -', 'R - -', 8],
    ['E(2,5) = (2 3), the same', 'R - R - -', 'R - R - -', 5],
    ['E(3,7) = (2 2 3), which no shorter group gives', 'R - R - R - -', 'R - R - R - -', 7],
    ['E(5,9) = (2 2 2 2 1)', 'R - R - R - R - R', 'R -', 9],
    ['E(4,11) = (3 3 3 2)', 'R - - R - - R - - R -', 'R - -', 11],
    ['E(4,16), every beat', 'R - - - R - - - R - - - R - - -', 'R - - -', 4],
  ])('%s', (_, rhythm, grouping, cycle) => {
    const phrase = takenApart(patternFrom(rhythm));
    expect(phrase.groupingText).toBe(grouping);
    expect(phrase.cycle).toBe(cycle);
    expect(phrase.layers).toHaveLength(1);
  });
});
