import type { Page } from 'playwright-core';

/** The velocities of every kept take's strokes, oldest first, read from the browser's own store. */
export const takesInStore = (page: Page): Promise<number[][]> =>
  page.evaluate(
    () =>
      new Promise<number[][]>((resolve, reject) => {
        const opening = indexedDB.open('layered-phrases');
        opening.onerror = () => reject(new Error('the store does not open'));
        opening.onsuccess = () => {
          const reading = opening.result.transaction('takes').objectStore('takes').getAll();
          reading.onerror = () => reject(new Error('the takes cannot be read'));
          reading.onsuccess = () =>
            resolve(
              (reading.result as { data2: Uint8Array }[]).map(({ data2 }) => Array.from(data2)),
            );
        };
      }),
  );
