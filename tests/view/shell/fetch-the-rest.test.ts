import { expect, it, vi } from 'vitest';
import { fetchBetweenTakes } from '../../../src/view/shell/fetch-the-rest';

it('fetches nothing more once a take is begun, and goes on when it is stopped', async () => {
  vi.useFakeTimers();
  let isPlaying = false;
  const fetched: number[] = [];
  const pieces = [
    async () => {
      fetched.push(1);
      isPlaying = true;
    },
    () => Promise.reject(new Error(`${fetched.push(2)}`)),
    async () => fetched.push(3),
  ];
  const fetching = fetchBetweenTakes(pieces, () => isPlaying);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(fetched).toEqual([1]);
  isPlaying = false;
  await vi.advanceTimersByTimeAsync(1000);
  await fetching;
  expect(fetched).toEqual([1, 2, 3]);
  vi.useRealTimers();
});
