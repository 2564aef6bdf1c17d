import type { BaseIssue } from 'valibot';

/** Where in a file something is wrong, and what was expected there. */
export interface PlacedIssue {
  /** Path in the file: "pads[3].voice"; "file" for the whole of it. */
  readonly place: string;
  readonly message: string;
}

/** What a schema found wrong, each with its place and a sentence; at most 20 of them. */
export function placedIssues(issues: readonly BaseIssue<unknown>[]): PlacedIssue[] {
  return issues.slice(0, 20).map((issue) => {
    const place = pathOf(issue);
    return { place, message: `${place} ${fault(issue)}` };
  });
}

function fault(issue: BaseIssue<unknown>): string {
  if (issue.expected === 'never')
    return 'is not a key of this file: take it out or correct its spelling.';
  if (issue.received === 'undefined') return 'is missing: add it.';
  const found = shorten(issue.received ?? String(issue.input));
  if (issue.type === 'integer') return `is ${found}: it should be a whole number.`;
  const expected = (issue.expected ?? 'something else')
    .replace(/^\((.*)\)$/, '$1')
    .replaceAll(' | ', ', ')
    .replace(/^>=/, 'at least ')
    .replace(/^<=/, 'at most ');
  return issue.type.endsWith('_length')
    ? `has ${found} entries or letters: it should have ${expected}.`
    : `is ${found}: it should be ${/^".*, /.test(expected) ? `one of ${expected}` : expected}.`;
}

function pathOf(issue: BaseIssue<unknown>): string {
  let path = '';
  for (const { key } of issue.path ?? [])
    path +=
      typeof key === 'number' ? `[${key}]` : `${path === '' ? '' : '.'}${shorten(String(key))}`;
  return path === '' ? 'file' : path;
}

const shorten = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}...` : text);
