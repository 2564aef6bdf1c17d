import { describe, expect, it } from 'vitest';
import { PlaceFilter } from '../../src/coach/place/place-filter';
import { CERTAIN, INFORMATIVE } from '../../src/coach/place/place-follower';
import { informativePartials, placePattern } from '../../src/coach/place/place-pattern';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';

/**
 * Worked by hand and by an independent script from the likelihood ratio of a shifted against an unshifted pattern
 * (Wald, Ann. Math. Stat. 16, 1945, for the boundaries); S snare, K bass drum, T high tom, . a rest.
 */
const VOICES: Readonly<Record<string, string>> = { S: 'R', K: 'K', T: 'L', '.': '-' };

function pattern(text: string) {
  const checked = checkPhrase({
    title: 'Worked by hand',
    meter: '4/4',
    tempoBpm: 90,
    subdivision: 4,
    grouping: [...text].map((letter) => VOICES[letter]).join(' '),
    layers: [
      {
        name: 'Voices',
        ...(text.includes('T') && {
          changes: [{ where: { limb: 'L' }, set: { voice: 'high tom' } }],
        }),
      },
    ],
  });
  if (!checked.ok) throw new Error(checked.errors[0]!.message);
  return placePattern(checked.value, 1)!;
}

describe('lost place against worked cases', () => {
  it.each([
    ['SSKSTKSK', [0, 7, 5, 3, 8, 3, 5, 7]],
    ['SSKSSKSS', [0, 4, 4, 2, 4, 2, 4, 4]],
    // A tresillo in eighths.
    ['S..S..S.', [0, 6, 4, 2, 6, 2, 4, 6]],
    ['SSSSKSSSSKSSSSKS', [0, 6, 6, 6, 6, 2, 4, 6, 6, 6, 4, 2, 6, 6, 6, 6]],
  ])('%s: partials that differ, by shift', (text, differing) => {
    expect(informativePartials(pattern(text))).toEqual(differing);
  });

  it.each([
    ['SSTSKSSTSK', 5, [0, 8 / 2, 6 / 2, 6 / 2, 8 / 2]],
    ['SKSKSKSK', 2, [0, 2]],
    ['SSSS', 1, [0]],
  ])('%s is its own rotation by %i', (text, length, differing) => {
    expect(pattern(text).partials).toHaveLength(length);
    expect(informativePartials(pattern(text))).toEqual(differing);
  });

  it('SSKSTKSK two late: log likelihood ratio after each note, and where it crosses', () => {
    const { partials, symbols } = pattern('SSKSTKSK');
    const filter = new PlaceFilter(partials, 0);
    const prior = Math.log(filter.posterior[2]! / filter.posterior[0]!);
    // p = 0.9 for the written one of three symbols, 0.05 for each other.
    const heard = [6, 7, 0, 1, 2, 3, 4, 5].map((at) => partials[at]!);
    const ratios = heard.map((symbol, i) => {
      filter.hear(
        i,
        Float64Array.from(symbols, (_, s) => (s === symbol ? 0.9 : 0.05)),
        1e-9,
      );
      return Math.log(filter.posterior[2]! / filter.posterior[0]!) - prior;
    });
    const expected = [0, 2.8904, 5.7807, 5.7807, 8.6711, 11.5615, 14.4519, 14.4519];
    ratios.forEach((ratio, i) => expect(ratio).toBeCloseTo(expected[i]!, 3));
    expect(ratios.findIndex((ratio) => ratio >= 4.5951) + 1).toBe(3);
  });

  it("certain is Wald's boundary for one error in a hundred, from three partials on", () => {
    expect(Math.log(CERTAIN / (1 - CERTAIN))).toBeCloseTo(4.5951, 4);
    expect(INFORMATIVE).toBe(3);
  });
});
