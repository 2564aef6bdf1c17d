import { describe, expect, it } from 'vitest';
import { ONE_STRIKE_US, strikes } from '../../../src/kit/faults/strikes';

const at = (timeUs: number, velocity: number) => ({ timeUs, velocity });

describe('strokes that came together', () => {
  it('are one strike, the loudest of them, whichever came first', () => {
    expect(strikes([at(4000, 110), at(0, 30), at(9000, 50)])).toEqual([at(4000, 110)]);
  });

  it('are told apart beyond the time of one strike, which still belongs to it', () => {
    const first = at(0, 100);
    expect(strikes([first, at(ONE_STRIKE_US, 90)])).toEqual([first]);
    expect(strikes([first, at(ONE_STRIKE_US + 1, 90)])).toHaveLength(2);
  });
});
