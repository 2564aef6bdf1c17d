import { describe, expect, it } from 'vitest';
import { layerStack } from '../../../src/phrase/layers/layer-stack';
import { areAlike, isSameMotion, soundsSame } from '../../../src/phrase/layers/same-sound';
import type { ChangeFile } from '../../../src/phrase/model/phrase-file';
import { phraseOf } from '../phrase-of';

const stackOf = (grouping: string, cycle: number, changes: readonly ChangeFile[]) =>
  layerStack(phraseOf({ grouping, cycle, layers: [{ name: 'Layer', changes: [...changes] }] }));
const accents = (...lengths: number[]): ChangeFile[] =>
  lengths.map((accentEvery) => ({ accentEvery }));
const onRide = (partials: number, at: number): ChangeFile => ({
  where: { every: { partials, at: [at] } },
  set: { voice: 'ride' },
});

describe('soundsSame', () => {
  it('is false when one note of a later cycle differs, and true when none does', () => {
    const [third, last] = [onRide(4 * 101, 3), onRide(4 * 101, 4 * 101)];
    expect(soundsSame(stackOf('R', 4, [third]), stackOf('R', 4, [third, last]))).toBe(false);
    expect(soundsSame(stackOf('R', 4, [third]), stackOf('R', 4, [third, third]))).toBe(true);
  });

  it('is false when the two repeat too late to be looked through', () => {
    const bothWith = (...lengths: number[]) =>
      [stackOf('R', 1, accents(...lengths)), stackOf('R', 1, accents(...lengths))] as const;
    // 135,150 and 140,556 cycles; 550,000 looks are enough for 137,500 of one note and three changes.
    expect(soundsSame(...bothWith(50, 51, 53))).toBe(true);
    expect(soundsSame(...bothWith(51, 52, 53))).toBe(false);
  });

  it('is false when one repeats beyond counting and differs', () => {
    const plain = stackOf('R', 1, accents(2));
    const endless = stackOf('R', 1, accents(2, 509, 503, 499, 491, 487, 479, 467));
    expect(endless.period).toBe(Infinity);
    expect(soundsSame(plain, endless)).toBe(false);
  });
});

describe('areAlike', () => {
  it('looks at the notes of a phrase that repeats beyond counting', () => {
    const endless = [...accents(509, 503, 499, 491, 487, 479, 467), onRide(4, 2)];
    const [plain, other] = [stackOf('R', 4, accents(2)), stackOf('R', 4, endless)];
    expect(areAlike(plain, other, isSameMotion, 16)).toBe(false);
    expect(areAlike(other, other, isSameMotion, 16)).toBe(true);
  });
});
