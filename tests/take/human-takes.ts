import { readdirSync, readFileSync } from 'node:fs';

/**
 * Ten performances of professional drummers on an electronic kit: Groove MIDI Dataset, Gillick et al.
 * 2019, CC BY 4.0 (shared/takes/README.md).
 */
const FOLDER = 'shared/takes/';

/** Their names, as the folder has them. */
export const HUMAN_TAKES = readdirSync(FOLDER).filter((name) => name.endsWith('.mid'));

/** Tempo, in quarters a minute, and meter by name, as the dataset's table states them (F). */
export const STATED = new Map(
  readFileSync(`${FOLDER}README.md`, 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('| take-'))
    .map((line) => {
      const [, file, , bpm, meter] = line.split('|').map((cell) => cell.trim());
      return [file!, { bpm: Number(bpm), meter: meter! }] as const;
    }),
);

export const humanTakePath = (name: string): string => FOLDER + name;
export const humanTake = (name: string): Uint8Array => readFileSync(humanTakePath(name));
