import { detailOf } from '../words/words';

/** What is told when something threw at the start. @example notStarted('The take', new Error('no room')) // => 'The take was not started, since something failed: no room. Start again; if that does not help, reload the page.' */
export const notStarted = (what: string, error: unknown): string =>
  `${what} was not started, since something failed: ${detailOf(error)}. Start again; if that does not help, reload the page.`;
