import { renameSync, realpathSync, rmSync, statSync, type Stats, writeFileSync } from 'node:fs';
import { InputError } from './input-error';

/** What an output may not, or may, be written over. */
export interface OutputGuard {
  /** The file that was read, never written over. */
  readonly input: string;
  /** Whether any other file may be written over. */
  readonly force: boolean;
}

/**
 * Writes a file whole or not at all: what was there stays until all of the new one is on the disk.
 *
 * @throws InputError when a file is there and `force` is not given, when it is the input, or when it cannot be written.
 */
export function writeOutput(path: string, text: string, { input, force }: OutputGuard): void {
  try {
    const there = statSync(path, { throwIfNoEntry: false });
    if (there?.isDirectory()) throw new InputError(`${path}: this is a folder, expected a file.`);
    if (there !== undefined && isSameFile(there, statSync(input, { throwIfNoEntry: false })))
      throw new InputError(`${path}: this is the file that was read; give another name to -o.`);
    if (there?.isFile() && !force)
      throw new InputError(`${path}: there is a file already; --force writes over it.`);
    if (there?.isFile()) replace(realpathSync(path), text);
    else if (there === undefined) writeNew(path, text);
    else writeFileSync(path, text);
  } catch (error) {
    if (error instanceof InputError) throw error;
    const { code } = error as NodeJS.ErrnoException;
    throw new InputError(`${path}: it cannot be written there (${code}).`);
  }
}

/** Two names may be links to one file. */
const isSameFile = (a: Stats, b: Stats | undefined): boolean => a.dev === b?.dev && a.ino === b.ino;

function replace(path: string, text: string): void {
  const beside = `${path}.${process.pid}.part`;
  writeNew(beside, text);
  renameSync(beside, path);
}

function writeNew(path: string, text: string): void {
  try {
    writeFileSync(path, text, { flag: 'wx' });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') rmSync(path, { force: true });
    throw error;
  }
}
