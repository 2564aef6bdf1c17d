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

/** `0x64` and `1e2` are numbers to JavaScript, and slips of the finger here. */
const DECIMAL = /^-?(?:\d+\.?\d*|\.\d+)$/;

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
  const refuse = (why: string) => new InputError(`command line: ${why}. Usage: ${usage}`);
  let parsed;
  try {
    parsed = parseArgs({
      args: withNegatives(args),
      options,
      allowPositionals: true,
      tokens: true,
    });
  } catch (error) {
    throw refuse((error as Error).message.split(/\.(?:\s|$)/)[0]!);
  }
  const positionals: readonly string[] = parsed.positionals;
  const values: Readonly<Record<string, unknown>> = parsed.values;
  const names = parsed.tokens.flatMap((token) => (token.kind === 'option' ? [token.name] : []));
  const twice = names.find((name, i) => names.indexOf(name) < i);
  if (twice !== undefined) throw refuse(`--${twice} is given twice`);
  if ([...positionals, ...Object.values(values)].includes('')) throw refuse('a word is empty');
  const text = (name: string) => values[name] as string | undefined;
  const numberOf = (name: string, { from, to }: Range, isWhole: boolean) => {
    const found = text(name);
    if (found === undefined) return undefined;
    const value = DECIMAL.test(found) ? Number(found) : NaN;
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
      throw refuse(`expected one ${what}`);
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
