import type { Take } from '../../../take/take';
import { takeCsv } from '../../../take/take-csv';
import { writeTake } from '../../../take/take-json';
import { takeMidi } from '../../../take/take-midi';
import { fileSlug } from '../../page/file-slug';

export interface Download {
  readonly label: string;
  readonly extension: string;
  readonly type: string;
  readonly content: (take: Take) => string | Uint8Array;
}

/** The forms a take can be taken away in. */
export const DOWNLOADS: readonly Download[] = [
  { label: 'JSON', extension: 'json', type: 'application/json', content: writeTake },
  { label: 'MIDI file', extension: 'mid', type: 'audio/midi', content: takeMidi },
  { label: 'CSV', extension: 'csv', type: 'text/csv', content: takeCsv },
];

/**
 * Title, day and time to the second, of universal time as the z says.
 *
 * @example fileNameOf('Quay Steps / 2', '2026-03-01T18:20:05.000Z', 'mid') // => 'quay-steps-2-2026-03-01-182005z.mid'
 */
export function fileNameOf(title: string, startedAt: string, extension: string): string {
  const when = `${startedAt.slice(0, 19).replace('T', '-').replaceAll(':', '')}z`;
  return `${fileSlug(title, 'take')}-${when}.${extension}`;
}
