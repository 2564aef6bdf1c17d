import { describe, expect, it } from 'vitest';
import * as engine from '../src/index';

const modules = import.meta.glob<Record<string, unknown>>(
  '../src/{time,phrase,kit,match,score,coach,take,notation}/**/*.ts',
  { eager: true },
);
const sources = import.meta.glob<string>(
  '../src/{time,phrase,kit,match,score,coach,take,notation}/**/*.ts',
  { eager: true, query: '?raw', import: 'default' },
);

interface Example {
  readonly file: string;
  readonly code: string;
  readonly value: string;
}

const examples: readonly Example[] = Object.entries(sources).flatMap(([file, source]) =>
  [...source.matchAll(/@example (.+?) \/\/ => (.+?)(?: \*\/)?$/gm)].map(([, code, value]) => ({
    file: file.replace('../src/', ''),
    code: code!,
    value: value!,
  })),
);

/** An expression with the exports of a file and of the engine at hand. */
function evaluate(file: string, code: string): unknown {
  const scope: Record<string, unknown> = { ...engine, ...modules[`../src/${file}`] };
  const names = Object.keys(scope);
  // The text is our own, from a docstring in src.
  // eslint-disable-next-line @typescript-eslint/no-implied-eval
  const run = new Function(...names, `'use strict'; return (${code});`) as (
    ...values: unknown[]
  ) => unknown;
  return run(...names.map((name) => scope[name]));
}

describe('the examples in docstrings', () => {
  it('are found, each on one line with its value', () => {
    const written = Object.values(sources).flatMap((source) => source.match(/@example/g) ?? []);
    expect(examples.length).toBe(written.length);
    expect(new Set(examples.map(({ file }) => file)).size).toBeGreaterThanOrEqual(10);
  });

  it.each(examples.map(({ file, code, value }) => [file, code, value] as const))(
    '%s: %s // => %s',
    (file, code, value) => {
      expect(evaluate(file, code)).toEqual(evaluate(file, value));
    },
  );
});
