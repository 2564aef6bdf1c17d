import { beforeEach } from 'vitest';
import { cleanup } from 'vitest-browser-svelte/pure';

// The page of one file is the page of the next: the library empties it only for the file that loads it first,
// and a page remembers only 250 of the resources it fetched unless it is told to remember more.
beforeEach(() => cleanup());
performance.setResourceTimingBufferSize(10_000);
