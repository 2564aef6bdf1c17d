import type { BaseIssue } from 'valibot';
import { placeText } from '../phrase/check/shape-error';
import { MOST_ERRORS } from '../phrase/model/phrase-error';

/** Where in a file something is wrong, and what was expected there. */
export interface FileIssue {
  /** Path into the file with list places from 0: "pads[3].voice"; empty for the whole. */
  readonly place: string;
  readonly message: string;
}

/** What a schema found wrong, each with its place and a sentence; at most MOST_ERRORS of them. */
export function fileIssues(issues: readonly BaseIssue<unknown>[]): FileIssue[] {
  return issues
    .slice(0, MOST_ERRORS)
    .map((issue) => ({ place: placeText(issue.path ?? []), message: fault(issue) }));
}

function fault(issue: BaseIssue<unknown>): string {
  if (issue.expected === 'never')
    return 'This key is not known here; take it out or correct its spelling.';
  if (issue.received === 'undefined') return 'This key is missing; add it.';
  const found = shorten(issue.received);
  if (issue.type === 'integer') return `Found ${found}, expected a whole number; round it.`;
  const expected = (issue.expected ?? 'something else')
    .replace(/^\((.*)\)$/, '$1')
    .replaceAll(' | ', ', ')
    .replace(/^>=/, 'at least ')
    .replace(/^<=/, 'at most ');
  return issue.type.endsWith('_length')
    ? `Found ${found} entries or letters, expected ${expected}; make it fit.`
    : `Found ${found}, expected ${expected.includes('", "') ? `one of ${expected}` : expected}; correct it.`;
}

const shorten = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}...` : text);
