import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { runInThisContext } from 'node:vm';
import { describe, expect, it } from 'vitest';

/** `@example expression // => value`, on one line. */
const EXAMPLE = /@example (?<expression>.+?) \/\/ => (?<value>.+?)(?: \*\/)?$/;

const examples = readdirSync('src', { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts') && !file.endsWith('.svelte.ts'))
  .flatMap((file) =>
    readFileSync(resolve('src', file), 'utf8')
      .split('\n')
      .filter((line) => line.includes('@example'))
      .map((line) => {
        const { expression, value } = EXAMPLE.exec(line)?.groups ?? {};
        return { file, line: line.trim(), expression, value };
      }),
  );

/** Everything the engine exports; no two things in it share a name. */
const engine = Object.assign(
  {},
  ...Object.values(
    import.meta.glob(
      '../src/{words,time,phrase,kit,match,score,coach,live,take,capture,exchange,notation}/**/*.ts',
      {
        eager: true,
      },
    ),
  ),
) as Record<string, unknown>;

/** What the two sides of an example give, with the names of its file and of the engine in reach. */
async function sides(file: string, expression: string, value: string): Promise<[unknown, unknown]> {
  const own = (await import(resolve('src', file))) as Record<string, unknown>;
  const names = { ...engine, ...own };
  const code = `(({ ${Object.keys(names).join(', ')} }) => [(${expression}), (${value})])`;
  return (runInThisContext(code) as (scope: object) => [unknown, unknown])(names);
}

describe('the examples in the docs', () => {
  it('are there', () => {
    expect(examples.length).toBeGreaterThan(50);
  });

  it.each(examples)('$file: $line', async ({ file, expression, value }) => {
    if (expression === undefined || value === undefined) {
      throw new Error('An example is written as: @example expression // => value, on one line.');
    }
    const [given, told] = await sides(file, expression, value);
    expect(given).toEqual(told);
  });
});
