import { describe, expect, it } from 'vitest';
import { expand } from '../../src/phrase/layers/expand';
import type { Phrase } from '../../src/phrase/model/phrase';
import { realignment } from '../../src/phrase/layers/realignment';
import { vary, type Twist } from '../../src/phrase/vary/vary';
import { steadyTempo } from '../../src/time/tempo';
import { phraseOf } from '../phrase/phrase-of';

const spaced = (sticking: string) => [...sticking].join(' ');
const varied = (phrase: Phrase, twist: Twist) => vary(phrase, twist)!.phrase;
const hands = (phrase: Phrase) =>
  expand(phrase, phrase.layers.length, { cycles: 1 })
    .map(({ limb, graceStep }) => (graceStep > 0 ? limb.toLowerCase() : limb))
    .join('');
const rotations = (text: string) => [...text].map((_, i) => text.slice(i) + text.slice(0, i));

// Toussaint, "The Euclidean Algorithm Generates Traditional Musical Rhythms", BRIDGES 2005, pp. 47-56. The names are
// as listed from that paper; the strings were computed by Bjorklund's procedure apart from this program. Compared as
// necklaces: a rotation is the same.
describe('thinning out to an even spread gives the Euclidean necklaces', () => {
  it.each([
    ['Khafif-e-ramal', 2, 'x.x..'],
    ['Ruchenitza', 3, 'x.x.x..'],
    ['tresillo', 3, 'x..x..x.'],
    ['Aksak', 4, 'x.x.x.x..'],
    ['Nawakhat', 5, 'x.xx.xx'],
    ['cinquillo', 5, 'x.xx.xx.'],
    ['Agsag-Samai', 5, 'x.x.x.x.x'],
    ['Venda clapping', 5, 'x..x.x..x.x.'],
    ['bossa nova', 5, 'x..x..x..x..x...'],
    ['West African bell', 7, 'x.xx.x.xx.x.'],
    ['samba', 7, 'x..x.x.x..x.x.x.'],
    ['Aka', 11, 'x..x.x.x.x.x..x.x.x.x.x.'],
    ['York-Samai', 5, 'x.xxxx'],
  ])('%s: %i onsets, %s', (_, keep, necklace) => {
    const full = phraseOf({ grouping: 'R', cycle: necklace.length });
    const kept = expand(varied(full, { kind: 'thin out', keep }), 2, { cycles: 1 });
    const onsets = new Set(kept.map(({ position }) => position));
    const thinned = [...necklace].map((__, i) => (onsets.has(i + 1) ? 'x' : '.')).join('');
    expect(rotations(necklace)).toContain(thinned);
  });
});

// Stickings: Percussive Arts Society, International Drum Rudiments, as in rudiments.test.ts.
describe('rudiments turned into one another', () => {
  it.each([
    ['single paradiddle', 'RLRR', 'LRLL'],
    ['double paradiddle', 'RLRLRR', 'LRLRLL'],
    ['triple paradiddle', 'RLRLRLRR', 'LRLRLRLL'],
    ['five stroke roll', 'RRLLR', 'LLRRL'],
    ['nine stroke roll', 'RRLLRRLLR', 'LLRRLLRRL'],
  ])('%s, led by the left, is its mirror', (_, right, left) => {
    expect(hands(varied(phraseOf({ grouping: spaced(right) }), { kind: 'mirror' }))).toBe(left);
  });

  it.each([
    ['flam', 'lR', 'rL'],
    ['drag', 'llR', 'rrL'],
    ['flam tap', 'lR R', 'rL L'],
    ['drag paradiddle', 'R llR L R R', 'L rrL R L L'],
  ])('%s with its grace notes too', (_, right, left) => {
    const mirrored = varied(phraseOf({ grouping: right }), { kind: 'mirror' });
    expect(mirrored.groupingText).toBe(left);
  });

  it('a whole paradiddle turned by half is its mirror, since the next repetition swaps the lead', () => {
    const paradiddle = phraseOf({ grouping: spaced('RLRRLRLL') });
    const half = varied(paradiddle, { kind: 'rotate', by: 4 });
    expect(hands(half)).toBe(hands(varied(paradiddle, { kind: 'mirror' })));
  });

  // Worked out from the stickings: RLRL repeats after two partials; the others do not before their end.
  it.each([
    ['RLRL', 2],
    ['RLRRLRLL', 8],
    ['RLRRLL', 6],
  ])('%s has %i rotations', (sticking, count) => {
    const phrase = phraseOf({ grouping: spaced(sticking) });
    const all = [...sticking].map((_, by) => hands(varied(phrase, { kind: 'rotate', by })));
    expect(all).toEqual(rotations(sticking));
    expect(new Set(all).size).toBe(count);
  });

  it.each([
    ['single strokes', 'RL', 'RRLL'],
    ['six strokes', 'RLRLRL', 'RRLLRRLLRRLL'],
  ])('%s doubled are the double stroke open roll', (_, single, double) => {
    const phrase = phraseOf({ grouping: spaced(single), cycle: single.length });
    const doubled = expand(varied(phrase, { kind: 'double strokes' }), 1, { cycles: 1 });
    expect(doubled.map(({ limb }) => limb).join('')).toBe(double);
  });
});

// Computed: 60,000 ms / bpm / partials to the beat; realignment by the least common multiple.
describe('the same strokes on another subdivision', () => {
  const three = phraseOf({ grouping: 'R L K', subdivision: 4 });
  it.each([
    [2, 300, 3],
    [3, 200, 1],
    [5, 120, 3],
    [6, 100, 1],
    [7, 85.714, 3],
  ])('three over %i to the beat at 100 bpm: %f ms apart, together after %i bars', (...row) => {
    const [subdivision, apartMs, bars] = row;
    const changed = varied(three, { kind: 'subdivision', subdivision });
    const [, second] = expand(changed, 2, { cycles: 1 });
    expect(steadyTempo(100).usAt(second!.onset) / 1000).toBeCloseTo(apartMs, 3);
    expect(realignment(changed, 2).bars).toBe(bars);
  });
});
