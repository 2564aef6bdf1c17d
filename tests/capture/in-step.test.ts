import { describe, expect, it } from 'vitest';
import { capture } from '../../src/capture/capture';
import { longRunCount } from '../run-count';
import { playRounds, randomPlayings } from './played-rounds';
import { captureInput } from './transcribed';

/** Nothing was tuned on it. */
const SEED = 88001;
const PLAYINGS = randomPlayings(longRunCount(36, 6), SEED);

function captured(k: number, off: number, tempoBpm?: number) {
  const { phrase, tempoBpm: playedBpm } = PLAYINGS[k]!;
  const input = captureInput(playRounds(PLAYINGS[k]!), {
    clickBpm: playedBpm * (1 + off),
    meter: phrase.meterText,
  });
  const report = capture(input, tempoBpm === undefined ? {} : { tempoBpm });
  if (!report.ok) throw new Error(report.errors[0]!.message);
  const sureOf = (about: string) =>
    report.value.findings.find((finding) => finding.about === about)!.sure;
  return { ...report.value, isSure: sureOf('tempo') && sureOf('subdivision'), sureOf };
}
const ALL = PLAYINGS.map((_, k) => k);

describe(`a click that is said, seed ${SEED}`, () => {
  it('is believed where it was played to', () => {
    const answers = ALL.map((k) => captured(k, 0));
    expect(answers.filter(({ isSure }) => isSure).length).toBeGreaterThanOrEqual(ALL.length - 1);
    expect(answers.map(({ inStepBpm }) => inStepBpm).filter((bpm) => bpm !== undefined)).toEqual(
      [],
    );
  });

  it.each([0.03, -0.05, 0.07, -0.1])('is not believed where it is %d off', (off) => {
    const answers = ALL.map((k) => captured(k, off));
    expect(answers.filter(({ isSure }) => isSure).length).toBeLessThanOrEqual(1);
    const offered = answers.filter(
      ({ inStepBpm }, k) => Math.abs((inStepBpm ?? 0) / PLAYINGS[k]!.tempoBpm - 1) < 0.01,
    );
    expect(offered.length).toBeGreaterThanOrEqual(ALL.length * 0.75);
    for (const { findings } of offered)
      expect(findings[0]!.sentence).toMatch(
        /which the strokes are not in step with; they are with \d/,
      );
  });

  it('may be corrected by the tempo that is offered', () => {
    const k = ALL.find((k) => {
      const { inStepBpm } = captured(k, 0.03);
      return Math.abs((inStepBpm ?? 0) / PLAYINGS[k]!.tempoBpm - 1) < 0.002;
    })!;
    const { inStepBpm } = captured(k, 0.03);
    const { findings, phrase, sureOf } = captured(k, 0.03, inStepBpm);
    expect(phrase.tempoBpm).toBe(inStepBpm);
    expect(findings[0]!.sentence).toContain('as you said');
    expect(sureOf('tempo')).toBe(true);
    expect(sureOf('subdivision')).toBe(true);
  });
});
