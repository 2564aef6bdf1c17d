import { describe, expect, it } from 'vitest';
import type { PlayedStroke } from '../../src/capture/played-stroke';
import type { Voice } from '../../src/phrase/model/voice';
import { captureInput, transcribed } from './transcribed';
import { capture } from '../../src/capture/capture';

const ROUNDS = 10;
const CYCLE: readonly Voice[] = ['bass drum', 'snare', 'snare', 'floor tom', 'snare', 'mid tom'];
const PARTIAL_US = 150_000;

/** Sixteenths at 100, ten rounds of six a few ms off; a crash together with partial 3 in the first rounds. */
function rounds(crashes: number, snaresOnFive = ROUNDS): PlayedStroke[] {
  return Array.from({ length: ROUNDS * CYCLE.length }, (_, i): PlayedStroke[] => {
    const timeUs = i * PARTIAL_US + ((i * 7) % 11) * 1000 - 5000;
    const round = Math.floor(i / CYCLE.length);
    const place = i % CYCLE.length;
    const voices: Voice[] = place === 4 && round >= snaresOnFive ? [] : [CYCLE[place]!];
    if (place === 2 && round < crashes) voices.push('crash');
    return voices.map((voice) => ({ timeUs, voice, velocity: 80 }));
  }).flat();
}

const written = (strokes: readonly PlayedStroke[]) =>
  transcribed(strokes, { clickBpm: 100, cyclePartials: CYCLE.length })!;
const crashesIn = (crashes: number) =>
  written(rounds(crashes)).pattern.notes.filter(({ voice }) => voice === 'crash').length;

describe('a note that is not in every round', () => {
  it('is written down from half of the rounds on, and not in one round fewer', () => {
    expect([crashesIn(5), crashesIn(4)]).toEqual([1, 0]);
  });

  it('is named where fewer than two thirds have it, and the other notes are as sure as ever', () => {
    const { findings, inSomeRounds, leftOut } = written(rounds(0, 6));
    expect(inSomeRounds).toMatchObject([{ partial: 4, voice: 'snare', rounds: 6, of: 10 }]);
    expect(leftOut).toEqual([]);
    const notes = findings.find(({ about }) => about === 'notes')!;
    expect(notes.sure).toBe(true);
    expect(notes.detail).toContain('in some rounds only: snare on partial 5 (6 of 10 rounds)');
  });

  it('is not named from there on', () => {
    expect(written(rounds(0, 7)).inSomeRounds).toEqual([]);
  });

  it('is told where it is left out, once in ten rounds too', () => {
    const report = capture(captureInput(rounds(1), { clickBpm: 100 }));
    if (!report.ok) throw new Error(report.errors[0]!.message);
    const { findings, leftOut } = report.value;
    expect(leftOut).toEqual([{ partial: 2, voice: 'crash', rounds: 1, of: 10 }]);
    expect(findings.find(({ about }) => about === 'notes')).toMatchObject({
      sure: true,
      sentence: expect.stringContaining('left out: crash on partial 3 (1 of 10 rounds)') as string,
    });
  });
});
