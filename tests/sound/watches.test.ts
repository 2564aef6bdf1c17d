import { describe, expect, it } from 'vitest';
import { createFreezeWatch } from '../../src/sound/freeze-watch';
import { createSilenceCheck } from '../../src/sound/silence-check';

describe('the freeze watch', () => {
  it('speaks when audio time has stood still for 300 ms, and stops when it moves', () => {
    const watch = createFreezeWatch();
    expect(watch.isFrozen(0, 1)).toBe(false);
    expect(watch.isFrozen(299, 1)).toBe(false);
    expect(watch.isFrozen(300, 1)).toBe(true);
    expect(watch.isFrozen(400, 1.01)).toBe(false);
  });
});

describe('the silence check', () => {
  it('speaks once when the first sound is half a second past and nothing came out', () => {
    const check = createSilenceCheck();
    expect(check.isSilent(9, () => 0)).toBe(false);
    check.expect(2);
    check.expect(3);
    expect(check.isSilent(2.49, () => 0)).toBe(false);
    expect(check.isSilent(2.5, () => 0)).toBe(true);
    expect(check.isSilent(2.6, () => 0)).toBe(false);
  });
  it('says nothing when something came out', () => {
    const check = createSilenceCheck();
    check.expect(2);
    expect(check.isSilent(2.6, () => 0.01)).toBe(false);
    expect(check.isSilent(5, () => 0)).toBe(false);
  });
});
