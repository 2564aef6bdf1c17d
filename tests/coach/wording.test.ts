import { describe, expect, it } from 'vitest';
import { wording, type FactsOf, type FindingCode } from '../../src/coach/wording';

/** One sample of the longest kind for every code: the compiler asks for a new one with a new code. */
const SAMPLES: { [Code in FindingCode]: FactsOf<Code> } = {
  'too little': undefined,
  'nothing stands out': { spreadMs: 11.4 },
  'lost place': { partials: -12, cycle: 107, cycles: 10 },
  'all strokes off': { ms: -15 },
  'limb off': { limb: 'R', ms: 12.3 },
  'limb apart': { limb: 'R', ms: -12.3 },
  'limb uneven': { limb: 'R', ms: 22.2, restMs: 11.8 },
  'wide spread': { ms: 21.4, aimMs: 17.86 },
  drift: { ms: 18.2 },
  'position off': { position: 14, limb: 'R', ms: -20 },
  'position apart': { position: 14, limb: 'R', ms: -20 },
  'position missed': { position: 14, limb: 'R', missed: 12, of: 20 },
  'limb missed': { limb: 'R', missed: 12, of: 120 },
  'many missed': { missed: 123, of: 1234 },
  'too loud': { voice: 'hi-hat closed', level: 'ghost', times: 14, of: 120, db: 6.09 },
  'too soft': { voice: 'hi-hat closed', level: 'accent', times: 14, of: 120, db: 3.2 },
  'levels inverted': { db: -23 },
  'wrong voice': { written: 'hi-hat foot splash', struck: 'hi-hat closed', times: 12 },
  'voice mapped': { written: 'hi-hat open', struck: 'hi-hat closed', times: 40 },
  extras: { times: 12, mostOn: 'hi-hat closed' },
};
const sentences = Object.entries(SAMPLES).map(
  ([code, facts]) => [code, wording(code as FindingCode, facts as never)] as const,
);

describe('the catalogue', () => {
  it.each(sentences)('%s is short, a sentence, and filled in', (_, { text, advice }) => {
    expect(text.length).toBeLessThanOrEqual(60);
    expect(advice.length).toBeLessThanOrEqual(120);
    for (const sentence of [text, advice]) {
      expect(sentence).toMatch(/^[A-Z0-9].*\.$/);
      expect(sentence).not.toMatch(/undefined|NaN|Infinity|-\d/);
    }
  });

  // The words of entertainment and of praise that this software does not use.
  it.each(sentences)('%s keeps to the words', (_, { text, advice }) => {
    expect(`${text} ${advice}`).not.toMatch(
      /\b(perfect|great|good|nice|awesome|well done|bad|fail\w*|score|combo|streak|star|lives|points?|level up|hit|hits|grade)\b/i,
    );
  });
});

describe('sentences, filled in by eye', () => {
  it.each([
    ['limb off', { limb: 'L', ms: 12.4 }, 'Left hand 12 ms late.'],
    ['limb off', { limb: 'K', ms: -9.6 }, 'Right foot 10 ms early.'],
    ['limb apart', { limb: 'L', ms: -8 }, 'Left hand 8 ms ahead of the rest.'],
    ['drift', { ms: 18 }, 'Dragging: 18 ms over the take.'],
    ['drift', { ms: -18 }, 'Rushing: 18 ms over the take.'],
    [
      'lost place',
      { partials: 1, cycle: 5, cycles: 1 },
      'Slipped 1 partial late at cycle 5, for 1 cycle.',
    ],
    [
      'wrong voice',
      { written: 'ride', struck: 'crash', times: 5 },
      'Crash struck for ride, 5 times.',
    ],
    ['extras', { times: 1, mostOn: undefined }, '1 extra stroke.'],
    ['nothing stands out', { spreadMs: undefined }, 'Nothing stands out.'],
    // A difference that is told at all is never told as 0.
    [
      'too soft',
      { voice: 'snare', level: 'accent', times: 3, of: 9, db: 0.2 },
      'Snare accents too soft: 3 of 9, by 1 dB.',
    ],
  ] as const)('%s', (code, facts, text) => {
    expect(wording(code, facts as never).text).toBe(text);
  });
});
