import type { Take } from '../../../take/take';
import { takeCsv } from '../../../take/take-csv';
import { writeTake } from '../../../take/take-json';
import { takeMidi } from '../../../take/take-midi';

export interface Download {
  readonly label: string;
  /** Of the file's name. */
  readonly ending: string;
  readonly content: (take: Take) => string | Uint8Array;
}

/** The forms a take can be taken away in. */
export const DOWNLOADS: readonly Download[] = [
  { label: 'JSON', ending: 'json', content: writeTake },
  { label: 'MIDI file', ending: 'mid', content: takeMidi },
  { label: 'CSV', ending: 'csv', content: takeCsv },
];
