import { describe, expect, it } from 'vitest';
import { expand } from '../../src/phrase/layers/expand';
import { swungPartial } from '../../src/phrase/model/swing';
import { beats } from '../../src/time/beats';
import { steadyTempo } from '../../src/time/tempo';
import { phraseOf } from '../phrase/phrase-of';

const onsetsMs = (subdivision: number, bpm: number, swing?: string) => {
  const phrase = phraseOf({ subdivision, grouping: 'R', ...(swing !== undefined && { swing }) });
  const tempo = steadyTempo(bpm);
  return expand(phrase, 1, { bars: 1 }).map((note) => tempo.usAt(note.onset) / 1000);
};

// Computed: 60,000 ms / bpm / partials per beat.
describe('tuplets at 100 bpm', () => {
  it.each([
    ['sixteenths', 4, 150],
    ['quintuplets', 5, 120],
    ['sextuplets', 6, 100],
    ['septuplets', 7, 85.714],
  ])('%s (%i to the beat) are %f ms apart', (_, subdivision, apartMs) => {
    const onsets = onsetsMs(subdivision, 100);
    expect(onsets).toHaveLength(4 * subdivision);
    expect(onsets[1]).toBeCloseTo(apartMs, 3);
    expect(onsets[subdivision]).toBe(600);
    expect(onsets.at(-1)).toBeCloseTo(2400 - apartMs, 3);
  });
});

// Long part of a swung beat, r / (1 + r), as shares worked out by hand to two decimals. That 2:1 is the third
// triplet partial: Friberg & Sundström, Music Perception 19(3), 2002, where 2:1 is "triplet feel".
describe('swing ratios', () => {
  it.each([
    [1, 1, 50.0],
    [3, 2, 60.0],
    [17, 10, 62.96],
    [2, 1, 66.67],
    [5, 2, 71.43],
    [3, 1, 75.0],
    [7, 2, 77.78],
    [4, 1, 80.0],
  ])('%i:%i puts the off-beat eighth at %f per cent of the beat', (long, short, percent) => {
    expect(swungPartial(1, 2, beats(long, short)).valueOf() * 100).toBeCloseTo(percent, 2);
  });

  it('at 2:1 the off-beat eighth is exactly the third triplet partial', () => {
    const swung = expand(phraseOf({ subdivision: 2, grouping: 'R', swing: '2:1' }), 1, { bars: 1 });
    const triplets = expand(phraseOf({ subdivision: 3, grouping: 'R - R' }), 1, { bars: 1 });
    expect(swung.map((note) => note.onset.toFraction())).toEqual(
      triplets.map((note) => note.onset.toFraction()),
    );
  });

  it('at 3:1 it is the fourth sixteenth', () => {
    const swung = expand(phraseOf({ subdivision: 2, grouping: 'R', swing: '3:1' }), 1, { bars: 1 });
    const dotted = expand(phraseOf({ subdivision: 4, grouping: 'R - - R' }), 1, { bars: 1 });
    expect(swung.map((note) => note.onset.toFraction())).toEqual(
      dotted.map((note) => note.onset.toFraction()),
    );
  });

  it('at 120 bpm and 2:1 the off-beat is 333.33 ms after the beat, straight 250 ms', () => {
    expect(onsetsMs(2, 120, '2:1')[1]).toBeCloseTo(333.33, 2);
    expect(onsetsMs(2, 120, '1:1')[1]).toBe(250);
    expect(onsetsMs(2, 120)[1]).toBe(250);
  });

  // A short note of exactly 100 ms: ratio = (beat - 100) / 100. Friberg & Sundström 2002 found about that much
  // at medium and fast tempi.
  it.each([
    [120, '4:1'],
    [150, '3:1'],
    [200, '2:1'],
    [240, '3:2'],
    [300, '1:1'],
  ])('at %i bpm and %s the short note lasts 100 ms', (bpm, swing) => {
    const [, off, next] = onsetsMs(2, bpm, swing);
    expect(next! - off!).toBeCloseTo(100, 3);
  });
});
