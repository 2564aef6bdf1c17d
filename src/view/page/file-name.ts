/** What a file is called without its ending. */
export interface FileTitle {
  readonly title: string;
  /** Where nothing of the title can stand in a name. */
  readonly otherwise: string;
  /** A moment, ISO 8601, where several files would have one name. */
  readonly at?: string;
}

/**
 * A title as the name of a file, with day and time to the second where a moment is given, of universal time as the z says.
 *
 * @example fileName({ title: 'Quay Steps / 2', otherwise: 'take', at: '2026-03-01T18:20:05.000Z' }, 'mid') // => 'quay-steps-2-2026-03-01-182005z.mid'
 */
export function fileName({ title, otherwise, at }: FileTitle, ending: string): string {
  const slug = title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');
  const when = at === undefined ? '' : `-${at.slice(0, 19).replace('T', '-').replaceAll(':', '')}z`;
  return `${slug || otherwise}${when}.${ending}`;
}
