import { detailOf } from '../words/words';

/** What can go wrong with what is kept on this machine, each with a sentence that says what to do. */
export const STORE_MESSAGES = {
  UNAVAILABLE:
    'This browser keeps nothing for this page: private windows often do not. Use an ordinary window, or download each take.',
  NEWER:
    'The log on this machine was written by a newer version of this page. Reload the page to get that version; until then nothing is written to it.',
  REPLACED:
    'A newer version of this page was opened in another tab and has taken over the log. Reload this tab.',
  BLOCKED:
    'Another tab holds the log in an older form. Close the other tabs with this page and the log opens by itself.',
  SILENT:
    'The browser does not open what it keeps for this page. What you play stays in memory and is kept once it opens; if it never does, restart the browser.',
  STUCK:
    'The browser does not answer about what it keeps for this page. What you play stays in memory and is tried again; keep this page open.',
  FULL: 'The disk is full, or the browser allows this page no more room. Make room, or delete takes in the log.',
  LOST: 'The browser closed its store and did not open it again. Download what you want to keep, then reload the page.',
  CHANGED:
    'Another tab has changed this since. It is left as it is there; reload the page to see it.',
  UNREADABLE:
    'This entry cannot be read: it is damaged, or a newer version of this page wrote it. Reload the page.',
} as const;

export type StoreProblemCode = keyof typeof STORE_MESSAGES;

export interface StoreProblem {
  readonly code: StoreProblemCode;
  readonly message: string;
  /** The browser's own words, for a report. */
  readonly detail?: string;
}

/** @example storeProblem('FULL').code // => 'FULL' */
export const storeProblem = (code: StoreProblemCode, detail?: string): StoreProblem => ({
  code,
  message: STORE_MESSAGES[code],
  ...(detail === undefined ? {} : { detail }),
});

/** What it means that the store did not open. */
export function openingProblem(error: unknown): StoreProblem {
  if (nameOf(error) === 'VersionError') return storeProblem('NEWER', detailOf(error));
  if (nameOf(error) === 'QuotaExceededError') return storeProblem('FULL', detailOf(error));
  return storeProblem('UNAVAILABLE', detailOf(error));
}

/** What it means that a request failed on an open store. */
export const requestProblem = (error: unknown): StoreProblem =>
  storeProblem(nameOf(error) === 'QuotaExceededError' ? 'FULL' : 'LOST', detailOf(error));

const nameOf = (error: unknown) => (error instanceof Error ? error.name : undefined);
