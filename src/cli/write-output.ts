import {
  type BigIntStats,
  fstatSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { InputError } from './input-error';
import { STANDARD_INPUT } from './read-input';

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
export function writeOutput(
  path: string,
  content: string | Uint8Array,
  { input, force }: OutputGuard,
): void {
  try {
    const there = statOf(path);
    if (there?.isDirectory()) throw new InputError(`${path}: this is a folder, expected a file.`);
    if (there !== undefined && isSameFile(there, input))
      throw new InputError(`${path}: this is the file that was read; give another name to -o.`);
    if (there?.isFile() && !force)
      throw new InputError(`${path}: there is a file already; --force writes over it.`);
    if (there?.isFile()) replace(realpathSync(path), content);
    else if (there === undefined) writeNew(path, content);
    else writeFileSync(path, content);
  } catch (error) {
    if (error instanceof InputError) throw error;
    const { code } = error as NodeJS.ErrnoException;
    throw new InputError(`${path}: it cannot be written there (${code}).`);
  }
}

const statOf = (path: string) => statSync(path, { bigint: true, throwIfNoEntry: false });

/** Two names may be links to one file, and standard input may be one. */
function isSameFile({ dev, ino }: BigIntStats, input: string): boolean {
  const read = input === STANDARD_INPUT ? fstatSync(0, { bigint: true }) : statOf(input);
  return read?.dev === dev && read.ino === ino;
}

function replace(path: string, content: string | Uint8Array): void {
  const beside = `${path}.${process.pid}.part`;
  writeNew(beside, content);
  renameSync(beside, path);
}

function writeNew(path: string, content: string | Uint8Array): void {
  try {
    writeFileSync(path, content, { flag: 'wx' });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') rmSync(path, { force: true });
    throw error;
  }
}
