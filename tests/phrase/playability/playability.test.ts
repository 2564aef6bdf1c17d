import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isHand } from '../../../src/phrase/model/limb';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import type { ChangeFile, PhraseFile } from '../../../src/phrase/model/phrase-file';
import { isFootVoice, PLACES } from '../../../src/phrase/playability/places';
import { playability } from '../../../src/phrase/playability/playability';
import { VOICES } from '../../../src/phrase/model/voice';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { libraryPhrases } from '../library-phrases';
import { layeredPhrase } from '../phrase-of';
import { runCount } from '../../run-count';

const told = (file: Partial<PhraseFile>, bpm: number, ...changes: ChangeFile[]) => {
  const phrase = layeredPhrase(file, changes);
  return playability(phrase, 2, bpm).problems.map(({ code, fromBpm, notes }) => ({
    code,
    fromBpm: Math.round(fromBpm * 100) / 100,
    at: [...new Set(notes.map(({ position, limb }) => `${position}${limb}`))],
  }));
};
const nothing: ChangeFile = { where: {}, set: { level: 'tap' } };
const codes = (...args: Parameters<typeof told>) => told(...args).map(({ code }) => code);

// Fujii et al., Neurosci. Lett. 459 (2009) 69-73, abstract: 5 to 7 strokes a second with one hand, the world's
// fastest drummer 10. The tempi are worked out by hand: 7 a second in sixteenths is 7 * 60 / 4 = 105 bpm.
describe('strokes a second against published rates', () => {
  it.each([
    ['sixteenths', 4, 105],
    ['triplets', 3, 140],
    ['eighths', 2, 210],
  ])(
    'one hand in %s (%i to the beat) keeps up to %i bpm, and not beyond',
    (_, subdivision, bpm) => {
      expect(told({ subdivision, grouping: 'R' }, bpm, nothing)).toEqual([]);
      expect(told({ subdivision, grouping: 'R' }, bpm + 0.01, nothing)).toEqual([
        { code: 'RATE', fromBpm: bpm, at: ['1R'] },
      ]);
    },
  );

  it('hand to hand goes twice as far; a double-stroke roll as far as its strokes on average', () => {
    expect(codes({ grouping: 'R L' }, 210, nothing)).toEqual([]);
    expect(codes({ grouping: 'R L' }, 211, nothing)).toEqual(['RATE', 'RATE']);
    // Eight strokes of a hand from the second of a double: 0 1 4 5 8 9 12 13 span 13 sixteenths, 3 1/4 beats.
    expect(told({ grouping: 'R R L L' }, 200, nothing)[0]).toMatchObject({ fromBpm: 195 });
  });

  it('three strokes in a row closer than 100 ms are refused, a close pair alone is let through', () => {
    // Sextuplets at 100 bpm are 100 ms apart.
    const triple = { subdivision: 6, grouping: 'R R R - - - - - - - - -' };
    expect(codes(triple, 100, nothing)).toEqual([]);
    expect(codes(triple, 101, nothing)).toEqual(['BURST']);
    expect(codes({ ...triple, grouping: 'R R - - - - - - - - - -' }, 160, nothing)).toEqual([]);
  });

  it('a drag is one motion of its hand', () => {
    expect(codes({ subdivision: 2, grouping: 'llR rrL' }, 100, nothing)).toEqual([]);
  });
});

describe('what no tempo makes playable', () => {
  it.each([
    ['a hand with grace and main note', 'lR+L', 'GRACE_AND_MAIN', ['1L']],
    ['its own grace note', 'rR - - -', 'GRACE_AND_MAIN', ['1R']],
  ])('%s', (_, grouping, code, at) => {
    expect(told({ grouping }, 40, nothing)).toEqual([{ code, fromBpm: 0, at }]);
  });

  it('feet on hand voices and hands on foot voices', () => {
    const foot: ChangeFile = { where: { limb: 'K' }, set: { voice: 'crash' } };
    const hand: ChangeFile = { where: { limb: 'R' }, set: { voice: 'bass drum' } };
    expect(codes({ grouping: 'R - K -' }, 40, foot)).toEqual(['FOOT_ON_HAND_VOICE']);
    expect(codes({ grouping: 'R - K -' }, 40, hand)).toEqual(['HAND_ON_FOOT_VOICE']);
  });

  it('a limb twice, in a phrase that nobody checked', () => {
    const phrase = layeredPhrase({ grouping: 'R L' }, [nothing]);
    const twice = { ...phrase, grouping: [[...phrase.grouping[0]!, ...phrase.grouping[0]!]] };
    expect(playability(twice, 2, 40).problems.map(({ code }) => code)).toContain('LIMB_TWICE');
  });
});

describe('moves and crossed hands', () => {
  const set = (limb: 'R' | 'L', positions: number[], voice: 'ride' | 'crash' | 'floor tom') => ({
    where: { limb, positions },
    set: { voice },
  });

  it('a far move names its two notes and gets worse with the tempo', () => {
    const grouping = 'R - R - - - - -';
    const changes = [set('R', [1], 'crash'), set('R', [3], 'floor tom')];
    expect(codes({ grouping }, 60, ...changes)).toEqual([]);
    expect(told({ grouping }, 140, ...changes)).toMatchObject([{ code: 'MOVE', at: ['1R', '3R'] }]);
  });

  it('right on the crash over left on the ride is crossed at any tempo, hi-hat over snare is not', () => {
    const changes = [set('R', [1], 'crash'), set('L', [1], 'ride')];
    expect(told({ grouping: 'R+L - - -' }, 40, ...changes)).toEqual([
      { code: 'CROSSED', fromBpm: 0, at: ['1R', '1L'] },
    ]);
    const everyday: ChangeFile = { where: { limb: 'R' }, set: { voice: 'hi-hat closed' } };
    expect(codes({ grouping: 'R+L - - -' }, 100, everyday)).toEqual([]);
  });
});

describe('the foot on the hi-hat', () => {
  const voices: ChangeFile[] = [
    { where: { limb: 'R' }, set: { voice: 'hi-hat closed' } },
    { where: { limb: 'R', positions: [3] }, set: { voice: 'hi-hat open' } },
  ];

  it('lifts and presses in half a stroke each: a fourteenth of a second, not faster', () => {
    // 7 strokes a second are 14 halves; a quarter of a beat at 210 bpm is 60 / 210 / 4 s, a fourteenth of a second.
    const file = { subdivision: 8, grouping: 'R - R - - - - - - - - -', cycle: 24 };
    const open: ChangeFile[] = [
      voices[0]!,
      { where: { positions: [3] }, set: { voice: 'hi-hat open' } },
    ];
    expect(codes(file, 210, ...open)).toEqual([]);
    expect(told(file, 211, ...open)).toMatchObject([{ code: 'HI_HAT_FOOT', fromBpm: 210 }]);
  });

  it('cannot be open and pressed at once', () => {
    const pressed: ChangeFile = { add: [{ position: 3, limb: 'F' }] };
    expect(told({ grouping: 'R - R -' }, 40, ...voices, pressed)).toMatchObject([
      { code: 'HI_HAT_FOOT', fromBpm: 0, at: ['3R', '3F'] },
    ]);
  });

  it('is not on the hi-hat while it plays another pedal', () => {
    const away: ChangeFile = { where: { limb: 'F' }, set: { voice: 'bass drum' } };
    expect(codes({ grouping: 'R+F - - -' }, 40, voices[0]!, away)).toEqual(['HI_HAT_FOOT']);
  });
});

describe('difficulty', () => {
  // 50 speed + 20 travel + 15 together + 15 levels, worked out by hand.
  it.each([
    ['one hand at 7 a second on one voice', { grouping: 'R' }, 105, 50],
    ['half of that', { grouping: 'R -' }, 105, 25],
    ['two limbs always together', { grouping: 'R+K -' }, 105, 40],
  ])('%s', (_, file, bpm, figure) => {
    expect(playability(layeredPhrase(file, [nothing]), 2, bpm).difficulty).toBeCloseTo(figure, 9);
  });

  it('levels that always change weigh 15', () => {
    const accents: ChangeFile = { where: { positions: [1] }, set: { level: 'accent' } };
    const phrase = layeredPhrase({ grouping: 'R R' }, [accents]);
    expect(playability(phrase, 2, 105).difficulty).toBeCloseTo(65, 9);
  });
});

describe('laws', () => {
  it('lawSlowerNeverWorse: fewer or the same problems, lower or the same difficulty, and none up to the limit', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), fc.integer({ min: 20, max: 300 }), (phrase, bpm) => {
        const layer = phrase.layers.length;
        const fast = playability(phrase, layer, bpm);
        const slow = playability(phrase, layer, bpm / 2);
        const known = fast.problems.map(({ code }) => code);
        for (const { code, fromBpm } of slow.problems) {
          expect(known).toContain(code);
          expect(fromBpm).toBeLessThan(bpm / 2);
        }
        expect(slow.difficulty).toBeLessThanOrEqual(fast.difficulty);
        expect(fast.problems.length === 0).toBe(bpm <= fast.playableUpToBpm);
        for (const { sentence, fromBpm } of fast.problems) {
          expect(sentence).not.toMatch(/[{}]/);
          // The tempo told is one at which it can be played.
          const above = /above (\d+) bpm/.exec(sentence);
          if (above) expect(Number(above[1])).toBeLessThanOrEqual(fromBpm);
        }
      }),
      { numRuns: runCount(60) },
    );
  });

  it('every phrase of the library can be played at its own tempo, at every layer', () => {
    for (const { name, text } of libraryPhrases()) {
      const parsed = parsePhrase(text);
      if (!parsed.ok) throw new Error(name);
      parsed.value.layers.forEach((_, i) => {
        const { problems } = playability(parsed.value, i + 1, parsed.value.tempoBpm);
        expect(problems.map(({ sentence }) => `${name} ${i + 1} ${sentence}`)).toEqual([]);
      });
    }
  });

  // Common practice, no source: a right-handed kit has the hi-hat left of the snare, the ride and floor tom right of it.
  it('the kit is a right-handed one, its pedals under its feet', () => {
    expect(PLACES['hi-hat closed'].x).toBeLessThan(PLACES.snare.x);
    expect(PLACES['floor tom'].x).toBeGreaterThan(PLACES.snare.x);
    expect(PLACES.ride.x).toBeGreaterThan(PLACES['mid tom'].x);
    expect(VOICES.filter(isFootVoice)).toEqual(['bass drum', 'hi-hat foot splash', 'hi-hat pedal']);
    expect(['R', 'L', 'K', 'F'].filter((limb) => isHand(limb as 'R'))).toEqual(['R', 'L']);
  });
});
