import { readdirSync, readFileSync } from 'node:fs';
import { Linter } from 'eslint';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import names from '../../.scripts/name-rules.mjs';

const linter = new Linter();
const complaints = (code: string) =>
  linter.verify(code, {
    plugins: { names },
    rules: { 'names/no-participle-exports': 'error' },
  });

describe('the rule on exported names', () => {
  it.each([
    'export const placedNotes = 1;',
    'export function heard() {}',
    'export class LaidLayers {}',
    'const one = 1; export { one as wordsKept };',
    'export const KEPT = 1;',
  ])('refuses %s', (code) => {
    expect(complaints(code)).toHaveLength(1);
  });

  it.each([
    'export const layers = 1;',
    'const heard = 1; void heard;',
    'export const keptness = 1;',
  ])('allows %s', (code) => {
    expect(complaints(code)).toEqual([]);
  });
});

const EXPORT =
  /^export (?:abstract )?(?:async )?(?:const|function\*?|class|interface|type) (?<name>\w+)/gm;

/** Names that source files export, with the files that do. */
function exportedNames(folder: string): Map<string, string[]> {
  const byName = new Map<string, string[]>();
  const add = (name: string, file: string) => byName.set(name, [...(byName.get(name) ?? []), file]);
  for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    if (file.endsWith('.svelte')) add(`<${basename(file, '.svelte')}>`, file);
    // Programs of the command line each have their `main`.
    if (!file.endsWith('.ts') || file === 'index.ts' || file.startsWith('cli')) continue;
    // An overload is one thing.
    const inFile = new Set(
      [...readFileSync(join(folder, file), 'utf8').matchAll(EXPORT)].map(
        ({ groups }) => groups!['name']!,
      ),
    );
    for (const name of inFile) add(name, file);
  }
  return byName;
}

describe('exported things', () => {
  it('never share a name', () => {
    const names = exportedNames('src');
    expect(names.size).toBeGreaterThan(500);
    expect([...names].filter(([, files]) => files.length > 1)).toEqual([]);
  });
});
