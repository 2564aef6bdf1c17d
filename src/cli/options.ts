import { parseArgs, type ParseArgsConfig } from 'node:util';
import { InputError } from './input-error';

type Options = NonNullable<ParseArgsConfig['options']>;

/** The least and the most that a number may be. */
export interface Range {
  readonly from: number;
  readonly to: number;
}

/** A tempo that somebody may have played to, beats of the meter a minute. */
export const TEMPO: Range = { from: 10, to: 1200 };

/** Words of a command line: the files, and a getter for each kind of option. */
export interface CommandLine {
  readonly files: readonly string[];
  /** @throws InputError unless there is one file: `what` it is meant to be. */
  onlyFile(what: string): string;
  flag(name: string): boolean;
  text(name: string): string | undefined;
  /** @throws InputError unless it is a number in the range. */
  number(name: string, range: Range): number | undefined;
  /** @throws InputError unless it is a whole number in the range. */
  whole(name: string, range: Range): number | undefined;
}

/** Reads the words after the command's name; `usage` ends the message when they do not fit. */
export function commandLine(args: readonly string[], options: Options, usage: string): CommandLine {
  let parsed: { values: Record<string, unknown>; positionals: string[] };
  try {
    parsed = parseArgs({ args: withNegatives(args), options, allowPositionals: true });
  } catch (error) {
    throw new InputError(
      `command line: ${(error as Error).message.split('. ')[0]}. Usage: ${usage}`,
    );
  }
  const { values, positionals } = parsed;
  const text = (name: string) => values[name] as string | undefined;
  const numberOf = (name: string, { from, to }: Range, isWhole: boolean) => {
    const found = text(name);
    if (found === undefined) return undefined;
    const value = found.trim() === '' ? NaN : Number(found);
    if (!(value >= from && value <= to) || (isWhole && !Number.isInteger(value)))
      throw new InputError(
        `command line: --${name} ${found}: expected a ${isWhole ? 'whole ' : ''}number from ${from} to ${to}.`,
      );
    return value;
  };
  return {
    files: positionals,
    onlyFile(what) {
      const [path, ...others] = positionals;
      if (path !== undefined && others.length === 0) return path;
      throw new InputError(`command line: expected one ${what}. Usage: ${usage}`);
    },
    flag: (name) => values[name] === true,
    text,
    number: (name, range) => numberOf(name, range, false),
    whole: (name, range) => numberOf(name, range, true),
  };
}

/** A number below 0 belongs to the option ahead of it, as `--tolerance -1`, and is no option itself. */
const withNegatives = (args: readonly string[]): string[] =>
  args.reduce<string[]>((joined, word) => {
    const before = joined.at(-1);
    if (/^-[.\d]/.test(word) && before !== undefined && /^--[a-z-]+$/.test(before))
      joined[joined.length - 1] = `${before}=${word}`;
    else joined.push(word);
    return joined;
  }, []);
