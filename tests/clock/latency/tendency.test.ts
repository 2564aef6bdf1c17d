import { describe, expect, it } from 'vitest';
import { PUBLISHED_SIZES, tendency } from '../../../src/clock/latency/tendency';

const played = { deviceAndHabitMs: 2, lowerMs: -1, upperMs: 6 };

describe('the tendency of a player', () => {
  it('is what the device leaves, with both uncertainties in it', () => {
    const found = tendency(played, { deviceOffsetMs: 14, halfWidthMs: 3 });
    expect(found.tendencyMs).toBe(-12);
    expect(found.upperMs).toBe(-7);
    expect(found.lowerMs).toBeCloseTo(-12 - Math.SQRT2 * 3, 12);
    expect(found.sentence).toBe('You tend to play 12 ms ahead of the click (−16 to −7 ms).');
  });

  it('is not told when the interval holds nought', () => {
    const found = tendency(played, { deviceOffsetMs: 1, halfWidthMs: 1 });
    expect(found.sentence).toContain('No tendency can be told');
  });

  it('late is behind', () => {
    expect(tendency(played, { deviceOffsetMs: -20, halfWidthMs: 1 }).sentence).toContain(
      '22 ms behind the click',
    );
  });
});

describe('published sizes', () => {
  // Aschersleben 2002 and Fujii 2011 by their abstracts [F]. A figure of which no copy was seen stands on no screen.
  it('stand with their source', () => {
    expect(PUBLISHED_SIZES.map(({ source }) => source)).toEqual([
      'Aschersleben 2002, Brain and Cognition 48:66-79',
      'Fujii et al. 2011, Music Perception 28:491-503',
    ]);
  });
});
