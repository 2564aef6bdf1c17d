import { fetchedOnce } from './fetched-once';
import { firstPaint } from './first-paint';

/** What takes files that are dropped on the page: once it is painted. */
export const dropTarget = fetchedOnce(async () => {
  await firstPaint();
  return import('./DropTarget.svelte');
});
