import type { ChapterId } from '../../../shell/route';

/** In the script that fetches them, so that Help keeps them where no server answers any more. */
const FILES = import.meta.glob<string>('./pictures/*.webp', {
  query: '?inline',
  import: 'default',
});

/** The picture of a chapter as an address that holds all of it; rejects when it cannot be fetched. */
export function guidePicture(chapter: ChapterId, theme: 'light' | 'dark'): Promise<string> {
  const fetchIt = FILES[`./pictures/${chapter}-${theme}.webp`];
  return fetchIt ? fetchIt() : Promise.reject(new Error(`There is no picture of ${chapter}.`));
}

/** All of them, for whoever goes on without a connection. */
export const fetchGuidePictures = () =>
  Promise.allSettled(Object.values(FILES).map((fetchIt) => fetchIt()));
