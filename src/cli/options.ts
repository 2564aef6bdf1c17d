import { parseArgs, type ParseArgsConfig } from 'node:util';
import { InputError } from './input-error';

type Options = NonNullable<ParseArgsConfig['options']>;

/** Words of a command line: the files, and a getter for each kind of option. */
export interface CommandLine {
  readonly files: readonly string[];
  flag(name: string): boolean;
  text(name: string): string | undefined;
  /** @throws InputError unless it is a number from `from` to `to`. */
  number(name: string, from: number, to: number): number | undefined;
  /** @throws InputError unless it is a whole number from `from` to `to`. */
  whole(name: string, from: number, to: number): number | undefined;
}

/** Reads the words after the command's name; `usage` ends the message when they do not fit. */
export function commandLine(args: readonly string[], options: Options, usage: string): CommandLine {
  let parsed: { values: Record<string, unknown>; positionals: string[] };
  try {
    parsed = parseArgs({ args: [...args], options, allowPositionals: true });
  } catch (error) {
    throw new InputError(
      `command line: ${(error as Error).message.split('. ')[0]}. Usage: ${usage}`,
    );
  }
  const { values, positionals } = parsed;
  const text = (name: string) => values[name] as string | undefined;
  const number = (name: string, from: number, to: number) => {
    const found = text(name);
    if (found === undefined) return undefined;
    const value = found.trim() === '' ? NaN : Number(found);
    if (!(value >= from && value <= to))
      throw new InputError(
        `command line: --${name} ${found}: expected a number from ${from} to ${to}.`,
      );
    return value;
  };
  return {
    files: positionals,
    flag: (name) => values[name] === true,
    text,
    number,
    whole(name, from, to) {
      const value = number(name, from, to);
      if (value !== undefined && !Number.isInteger(value))
        throw new InputError(
          `command line: --${name} ${value}: expected a whole number from ${from} to ${to}.`,
        );
      return value;
    },
  };
}
