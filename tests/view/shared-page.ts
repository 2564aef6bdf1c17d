import { beforeEach } from 'vitest';
import { cleanup } from 'vitest-browser-svelte/pure';

// The page of one file is the page of the next: the library empties it only for the file that loads it first,
// and a page remembers only 250 of the resources it fetched unless it is told to remember more.
beforeEach(() => {
  cleanup();
  keyboardToTop();
});
performance.setResourceTimingBufferSize(10_000);

/** Tab goes on from where the focus was last, even in what is gone by now. */
function keyboardToTop(): void {
  const top = document.createElement('button');
  document.body.prepend(top);
  top.focus();
  top.remove();
}
