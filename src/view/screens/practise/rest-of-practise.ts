import { fetchedOnce } from '../../shell/fetched-once';
import { firstPaint } from '../../shell/first-paint';

export type RestOfPractise = typeof import('./below-the-head');

/** What Practise shows below its head: fetched when the head is painted and Start can be pressed. */
export const restOfPractise = fetchedOnce(async () => {
  await firstPaint();
  return import('./below-the-head');
});
