import { expect, it } from 'vitest';
import { playedWhen, usualTitle } from '../../../src/view/screens/capture/played-words';

it('tells the time, and the day where it was another', () => {
  const at = new Date(2026, 2, 9, 8, 5).toISOString();
  expect(playedWhen(at, new Date(2026, 2, 9, 23, 59))).toBe('08:05');
  expect(playedWhen(at, new Date(2026, 2, 10, 0, 1))).toBe('08:05 on 9 March 2026');
});

it.each([
  ['Net Mender.MID', 'Net Mender'],
  ['.mid', 'Played at 08:05 on 9 March 2026'],
  [undefined, 'Played at 08:05 on 9 March 2026'],
])('calls what is captured after the file, if there is one: %s', (fileName, title) => {
  const at = new Date(2026, 2, 9, 8, 5).toISOString();
  expect(usualTitle({ fileName, at })).toBe(title);
});
