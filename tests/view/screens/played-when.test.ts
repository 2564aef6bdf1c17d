import { expect, it } from 'vitest';
import { playedWhen } from '../../../src/view/screens/capture/played-when';

it('tells the time, and the day where it was another', () => {
  const at = new Date(2026, 2, 9, 8, 5).toISOString();
  expect(playedWhen(at, new Date(2026, 2, 9, 23, 59))).toBe('08:05');
  expect(playedWhen(at, new Date(2026, 2, 10, 0, 1))).toBe('08:05 on 9 March 2026');
});
