import { loadWebMidi } from '../../midi/web-midi-source';
import { loadMidiFiles } from '../../practice/inputs/midi-file-player.svelte';
import { loadTakeTools } from '../../practice/takes/load-take-tools';
import { loadAudioGraph } from '../../sound/audio-engine';
import { linkDialog } from '../hand-out/link-dialog';
import { restOfPractise } from '../screens/practise/rest-of-practise';
import { dropTarget } from './drop-target';
import { SCREEN_LOADERS } from './screen-loader';

/** Everything that does not come with the page, in the order in which it is likely to be needed. */
const REST: readonly (() => unknown)[] = [
  restOfPractise,
  loadTakeTools,
  loadAudioGraph,
  loadWebMidi,
  dropTarget,
  ...SCREEN_LOADERS,
  loadMidiFiles,
  linkDialog,
];

/** A busy page is not waited for any longer, ms: the rest must be there before the player looks elsewhere. Chosen. */
const LONGEST_WAIT_MS = 300;

/** How often somebody who plays is looked at again, ms. Chosen. */
const LOOKS_AGAIN_MS = 1000;

/** It is in no first load. */
const loadTheLast = async () => (await import('./fetch-the-last')).LAST;

/** Settles when the browser has nothing better to do. Safari does not tell. */
const idle = (): Promise<void> =>
  new Promise((free) => {
    if ('requestIdleCallback' in window)
      requestIdleCallback(() => free(), { timeout: LONGEST_WAIT_MS });
    else setTimeout(free);
  });

/** The mark in the browser's own timeline that nothing is left to fetch. */
const ALL_FETCHED = 'all fetched';

/**
 * Fetches the rest after the first paint, piece by piece. What cannot be fetched is fetched again when it is needed. Last
 * what no take waits for, each only while nobody plays.
 */
export async function fetchTheRest(isPlaying: () => boolean): Promise<void> {
  for (const piece of REST) {
    await Promise.allSettled([piece()]);
    await idle();
  }
  await untilStopped(isPlaying);
  await fetchBetweenTakes(await loadTheLast().catch(() => []), isPlaying);
  performance.mark(ALL_FETCHED);
}

/** Fetches one piece after the other, and begins none while somebody plays. */
export async function fetchBetweenTakes(
  pieces: readonly (() => Promise<unknown>)[],
  isPlaying: () => boolean,
): Promise<void> {
  for (const piece of pieces) {
    await untilStopped(isPlaying);
    await Promise.allSettled([piece()]);
  }
}

async function untilStopped(isPlaying: () => boolean): Promise<void> {
  while (isPlaying()) await new Promise((later) => setTimeout(later, LOOKS_AGAIN_MS));
}

/** Settles when nothing is left to fetch, or cannot be: before a take, since nothing may be fetched while it is played. */
export async function allFetched(): Promise<void> {
  await Promise.allSettled(REST.map((piece) => piece()));
}
