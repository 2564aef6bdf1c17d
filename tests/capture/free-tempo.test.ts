import { describe, expect, it } from 'vitest';
import type { PlayedStroke } from '../../src/capture/played-stroke';
import type { Voice } from '../../src/phrase/model/voice';
import { transcribed } from './transcribed';

/** A few ms off, never twice the same in a row. */
const unevenUs = (i: number): number => ((i * 7) % 11) * 1000 - 5000;

/** Strokes at `partialMs`, so many times round; each step such as "bass drum 110", two joined by +, or - for a rest. */
function played(partialMs: number, rounds: number, steps: readonly string[]): PlayedStroke[] {
  return Array.from({ length: rounds * steps.length }, (_, i) =>
    steps[i % steps.length]!.split('+').flatMap((step): PlayedStroke[] => {
      const at = step.lastIndexOf(' ');
      if (at < 0) return [];
      const timeUs = 2_000_000 + i * partialMs * 1000 + unevenUs(i);
      return [{ timeUs, voice: step.slice(0, at) as Voice, velocity: Number(step.slice(at)) }];
    }),
  ).flat();
}

function heard(strokes: readonly PlayedStroke[]) {
  const { pattern, findings } = transcribed(strokes)!;
  const of = (about: string) => findings.find((finding) => finding.about === about)!;
  return { pattern, of };
}

describe('the tempo of free playing', () => {
  it('of eighths at 100 with every other one accented is 100', () => {
    const { pattern } = heard(played(300, 24, ['snare 110', 'snare 60']));
    expect([Math.round(pattern.tempoBpm), pattern.subdivision]).toEqual([100, 2]);
  });

  it('of triplets at 80 with every third one accented is 80', () => {
    const { pattern } = heard(played(250, 24, ['snare 112', 'snare 60', 'snare 62']));
    expect([Math.round(pattern.tempoBpm), pattern.subdivision]).toEqual([80, 3]);
  });

  it('of a bar of sixteenths with bass drum on 1 and 3 and snare on 2 and 4 is the quarters', () => {
    const rest = ['hi-hat closed 50', 'hi-hat closed 70', 'hi-hat closed 50'];
    const low = ['hi-hat closed 80+bass drum 105', ...rest];
    const high = ['hi-hat closed 80+snare 112', ...rest];
    const { pattern } = heard(played(150, 8, [...low, ...high, ...low, ...high]));
    expect([Math.round(pattern.tempoBpm), pattern.subdivision]).toEqual([100, 4]);
  });

  it('of even strokes is not sure: eighths at 120 are triplets at 80, and it says so', () => {
    const { of, pattern } = heard(played(250, 40, ['snare 80']));
    const tempo = of('tempo');
    expect(tempo.sure).toBe(false);
    expect(of('subdivision').sure).toBe(false);
    expect([Math.round(pattern.tempoBpm), pattern.subdivision]).toEqual([120, 2]);
    expect(tempo.sentence).toBe(
      'Not sure of the tempo: 120 beats a minute; or 80, 3 partials a beat.',
    );
  });

  it('is not sure even where one way alone gives 60 to 200 beats a minute, but no other is told', () => {
    const { of } = heard(played(550, 20, ['snare 80', 'bass drum 80']));
    expect(of('tempo')).toMatchObject({
      sure: false,
      sentence: 'Not sure of the tempo: 109.1 beats a minute.',
    });
  });

  it('is not sure, but the cycle is', () => {
    const { of, pattern } = heard(
      played(170, 10, ['snare 110', 'snare 60', 'bass drum 80', '-', 'snare 70']),
    );
    expect(pattern.cyclePartials).toBe(5);
    expect([of('tempo').sure, of('cycle').sure]).toEqual([false, true]);
  });

  it('may be slower than one stroke a beat', () => {
    const { pattern } = heard(played(1200, 12, ['bass drum 90', 'snare 90']));
    expect([Math.round(pattern.tempoBpm), pattern.subdivision]).toEqual([100, 1]);
  });
});
