import { describe, expect, it } from 'vitest';
import { levelVerdict } from '../../src/score/level-verdict';

const PLAYER = { ghostMax: 50, accentMin: 95 };
const BOTH = { accents: true, ghosts: true };
const ACCENTS = { accents: true, ghosts: false };
const GHOSTS = { accents: false, ghosts: true };
const NEITHER = { accents: false, ghosts: false };

describe('level verdict', () => {
  // Filled in by eye from the rule for levels: closed edges, the tap judged only against zones the layer uses.
  it.each([
    ['ghost', 1, BOTH, 'as written'],
    ['ghost', 50, BOTH, 'as written'],
    ['ghost', 51, BOTH, 'too loud'],
    ['ghost', 127, GHOSTS, 'too loud'],
    ['accent', 127, BOTH, 'as written'],
    ['accent', 95, BOTH, 'as written'],
    ['accent', 94, BOTH, 'too soft'],
    ['accent', 1, ACCENTS, 'too soft'],
    ['tap', 51, BOTH, 'as written'],
    ['tap', 94, BOTH, 'as written'],
    ['tap', 95, BOTH, 'too loud'],
    ['tap', 50, BOTH, 'too soft'],
    ['tap', 95, ACCENTS, 'too loud'],
    ['tap', 50, ACCENTS, 'as written'],
    ['tap', 95, GHOSTS, 'as written'],
    ['tap', 50, GHOSTS, 'too soft'],
    ['tap', 1, NEITHER, 'as written'],
    ['tap', 127, NEITHER, 'as written'],
    ['ghost', 127, NEITHER, 'as written'],
    ['accent', 1, NEITHER, 'as written'],
  ] as const)('%s at velocity %i', (level, velocity, asked, verdict) => {
    expect(levelVerdict({ voice: 'snare', level }, velocity, PLAYER, asked)).toBe(verdict);
  });

  it.each(['hi-hat pedal', 'hi-hat foot splash'] as const)('asks nothing of the %s', (voice) => {
    for (const level of ['ghost', 'tap', 'accent'] as const)
      for (const velocity of [1, 50, 94, 127])
        expect(levelVerdict({ voice, level }, velocity, PLAYER, BOTH)).toBe('as written');
  });

  it("uses the player's own boundaries", () => {
    const soft = { ghostMax: 20, accentMin: 60 };
    expect(levelVerdict({ voice: 'snare', level: 'ghost' }, 21, soft, BOTH)).toBe('too loud');
    expect(levelVerdict({ voice: 'snare', level: 'accent' }, 60, soft, BOTH)).toBe('as written');
  });
});
