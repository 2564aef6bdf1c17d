import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { playedGrouping } from '../../src/capture/played-grouping';
import type { PlayedStroke } from '../../src/capture/played-stroke';
import { parseGrouping } from '../../src/phrase/check/parse-grouping';
import type { Voice } from '../../src/phrase/model/voice';
import { chance } from '../../src/time/chance';
import { longRunCount, runCount } from '../run-count';

/** A player as most are. Chosen, not measured. */
const SPREAD_MS = 12;
const VELOCITY = { main: 90, grace: 32, spread: 8 };
const GRACE_AHEAD_MS = 30;

/** Where the player strikes: each hand on a drum of its own, so that the hands can be heard. */
const VOICES: Record<string, Voice> = {
  R: 'floor tom',
  L: 'snare',
  K: 'bass drum',
  F: 'hi-hat pedal',
};

/** A grouping played once by somebody who scatters. */
function play(text: string, partialMs: number, seed: number, spreadMs = SPREAD_MS): PlayedStroke[] {
  const parsed = parseGrouping(text);
  if (!parsed.ok) throw new Error(text);
  const { normal } = chance(seed);
  const at = (ms: number) => Math.round((ms + spreadMs * normal()) * 1000);
  const loud = (mean: number) => Math.round(mean + VELOCITY.spread * normal());
  return parsed.value
    .flatMap((step, partial) =>
      step.flatMap(({ limb, graces }): PlayedStroke[] => {
        const voice = VOICES[limb]!;
        const mainUs = at(partial * partialMs);
        const main = { timeUs: mainUs, voice, velocity: loud(VELOCITY.main) };
        return [
          ...graces.map((_, g) => ({
            timeUs: mainUs - Math.round((graces.length - g) * GRACE_AHEAD_MS * 1000),
            voice,
            velocity: loud(VELOCITY.grace),
          })),
          main,
        ];
      }),
    )
    .sort((a, b) => a.timeUs - b.timeUs);
}

const STEPS = ['R', 'L', 'R', 'L', 'K', 'F', '-', 'R+K', 'L+K', 'R+L', 'lR', 'rL', 'llR', 'R+F'];
/** It starts and ends with a stroke, and two are next to each other: rests alone would be no rests. */
const groupings = fc
  .array(fc.constantFrom(...STEPS), { minLength: 2, maxLength: 12 })
  .filter((steps) => steps[0] !== '-' && steps.at(-1) !== '-')
  .filter((steps) => steps.some((step, i) => i > 0 && step !== '-' && steps[i - 1] !== '-'));

const HANDS_ON = { right: 'floor tom', left: 'snare' } as const;
const partials = fc.integer({ min: 150, max: 450 });
const seeds = fc.integer({ min: 1, max: 1e6 });
const RUNS = longRunCount(6000);
const VOICES_STRUCK = ['snare', 'floor tom', 'ride', 'bass drum', 'hi-hat pedal'] as const;

/** What is struck, without which hand: "H" for either. */
const withoutHands = (text: string) => text.replace(/[RL]/g, 'H').replace(/[rl]/g, 'h');

describe('a grouping played once', () => {
  it.each([
    ['R L - K R+K rL', 'R L - K R+K rL'],
    ['R L L R K', 'R L L R K'],
    ['K - - R L', 'K - - R L'],
    ['R+F L K', 'R+F L K'],
    ['llR L R L', 'llR L R L'],
    ['R', 'R'],
  ])('evenly, hands on drums of their own: %s', (played, text) => {
    const found = playedGrouping(play(played, 200, 1, 0));
    expect(found.ok && found.value.text).toBe(text);
  });

  it('lawRecovered: with 12 ms spread it is nearly always right, and hardly ever wrong', () => {
    const tally = { right: 0, refused: 0, wrong: 0 };
    fc.assert(
      fc.property(groupings, partials, seeds, (steps, partialMs, seed) => {
        const text = steps.join(' ');
        const found = playedGrouping(play(text, partialMs, seed));
        if (!found.ok) tally.refused++;
        else if (withoutHands(found.value.text) === withoutHands(text)) tally.right++;
        else tally.wrong++;
      }),
      { numRuns: RUNS, seed: 4077 },
    );
    expect(tally.right / RUNS).toBeGreaterThanOrEqual(0.97);
    expect(tally.wrong / RUNS).toBeLessThanOrEqual(0.005);
  });

  it('lawHands: told which drum each hand is on, the hands are right too', () => {
    let right = 0;
    fc.assert(
      fc.property(groupings, partials, seeds, (steps, partialMs, seed) => {
        const text = steps.join(' ');
        const found = playedGrouping(play(text, partialMs, seed), HANDS_ON);
        if (!found.ok || found.value.text !== text) return;
        right++;
        expect(found.value.sureOfHands).toBe(true);
      }),
      { numRuns: RUNS, seed: 4077 },
    );
    expect(right / RUNS).toBeGreaterThanOrEqual(0.97);
  });

  it('lawSteps: whatever is struck, the text is a grouping, or it is said why not', () => {
    const stroke = fc.record({
      timeUs: fc.integer({ min: 0, max: 5_000_000 }),
      voice: fc.constantFrom(...VOICES_STRUCK),
      velocity: fc.integer({ min: 1, max: 127 }),
    });
    fc.assert(
      fc.property(fc.array(stroke, { maxLength: 12 }), (strokes) => {
        const found = playedGrouping(strokes);
        if (found.ok) expect(parseGrouping(found.value.text).ok).toBe(true);
        else expect(found.errors[0]!.message).toMatch(/play/i);
      }),
      { numRuns: runCount(1000, 15) },
    );
  });
});

describe('a grouping that cannot be told', () => {
  const at = (ms: number, voice: Voice = 'snare', velocity = 80): PlayedStroke => ({
    timeUs: ms * 1000,
    voice,
    velocity,
  });
  const code = (strokes: readonly PlayedStroke[]) => {
    const found = playedGrouping(strokes);
    return found.ok ? found.value.text : found.errors[0]!.code;
  };

  it.each([
    ['NOTHING', []],
    ['TOO_FAST', [at(0), at(70), at(140), at(210)]],
    ['THREE_HANDS', [at(0, 'snare'), at(5, 'crash'), at(9, 'ride')]],
    ['UNEVEN', [at(0), at(200), at(400), at(700), at(900), at(1100)]],
    ['TOO_LONG', [at(0), at(200), at(400), at(20_400)]],
  ] as const)('is refused: %s', (refusal, strokes) => {
    expect(code(strokes)).toBe(refusal);
  });

  it('says where it is uneven', () => {
    const found = playedGrouping([0, 200, 400, 700, 900, 1100].map((ms) => at(ms)));
    expect(found.ok ? '' : found.errors[0]!.message).toBe(
      'The gap after stroke 3 could be 1 or 2 partials long; play it again, more evenly.',
    );
  });

  it('is not sure of hands that strike one drum', () => {
    const found = playedGrouping([0, 200, 400, 600].map((ms) => at(ms)));
    expect(found.ok && found.value).toMatchObject({ text: 'R L R L', partialUs: 200_000 });
  });
});
