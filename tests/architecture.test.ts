import { readdirSync } from 'node:fs';
import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join, relative, resolve } from 'node:path';
import { cruise, type ICruiseResult, type IConfiguration } from 'dependency-cruiser';
import { describe, expect, it } from 'vitest';

const rules = createRequire(import.meta.url)('../.dependency-cruiser.cjs') as IConfiguration;

/** What the arrow rules say about a scratch project in which one file imports one other. */
async function violations(from: string, to: string): Promise<string[]> {
  const folder = await mkdtemp(join(tmpdir(), 'arrows-'));
  try {
    await symlink(resolve('node_modules'), join(folder, 'node_modules'), 'junction');
    const bare = !to.includes('/') || to.startsWith('node:');
    const target = bare ? to : relative(dirname(from), to).replace(/^(?!\.)/, './');
    const statement = `import { x } from '${target.replace(/\.ts$/, '')}';\nexport const y = x;\n`;
    const files = [
      [
        from,
        from.endsWith('.svelte') ? `<script module lang="ts">\n${statement}</script>` : statement,
      ],
      ...(bare ? [] : [[to, 'export const x = 1;\n']]),
      [
        'package.json',
        JSON.stringify({ dependencies: { tone: '*' }, devDependencies: { ajv: '*' } }),
      ],
    ] as const;
    for (const [path, text] of files) {
      await mkdir(join(folder, dirname(path)), { recursive: true });
      await writeFile(join(folder, path), text);
    }
    const { tsPreCompilationDeps, doNotFollow, enhancedResolveOptions } = rules.options ?? {};
    const { output } = await cruise(['src'], {
      baseDir: folder,
      validate: true,
      ruleSet: { forbidden: rules.forbidden ?? [] },
      ...(tsPreCompilationDeps === undefined ? {} : { tsPreCompilationDeps }),
      ...(doNotFollow === undefined ? {} : { doNotFollow }),
      ...(enhancedResolveOptions === undefined ? {} : { enhancedResolveOptions }),
    });
    return (output as ICruiseResult).summary.violations.map(({ rule }) => rule.name);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

describe('the arrow rules', () => {
  it.each([
    ['src/time/a.ts', 'src/phrase/b.ts', 'arrow-from-time'],
    ['src/phrase/a.ts', 'src/kit/b.ts', 'arrow-from-phrase'],
    ['src/phrase/model/a.ts', 'src/phrase/layers/b.ts', 'arrow-from-phrase-model'],
    ['src/match/a.ts', 'src/score/b.ts', 'arrow-from-match'],
    ['src/score/a.ts', 'src/coach/b.ts', 'arrow-from-score'],
    ['src/take/a.ts', 'src/match/b.ts', 'arrow-from-take'],
    ['src/notation/a.ts', 'src/kit/b.ts', 'arrow-from-notation'],
    ['src/index.ts', 'src/practice/b.ts', 'arrow-from-index'],
    ['src/coach/a.ts', 'src/store/b.ts', 'arrow-from-coach'],
    ['src/clock/a.ts', 'src/sound/b.ts', 'arrow-from-clock'],
    ['src/midi/a.ts', 'src/practice/b.ts', 'arrow-from-midi'],
    ['src/store/a.svelte.ts', 'src/view/b.ts', 'arrow-from-store'],
    ['src/practice/a.svelte.ts', 'src/view/b.ts', 'arrow-from-practice'],
    ['src/cli/a.ts', 'src/store/b.ts', 'arrow-from-cli'],
    ['src/view/A.svelte', 'src/cli/b.ts', 'arrow-from-view'],
    ['src/view/a.ts', 'tests/b.ts', 'src-to-tests'],
    ['src/time/a.ts', 'node:fs', 'node-outside-cli'],
    ['src/view/A.svelte', 'node:fs', 'node-outside-cli'],
    ['src/score/a.ts', 'tone', 'browser-library-in-engine-or-cli'],
    ['src/sound/a.ts', 'ajv', 'dev-dependency-in-src'],
    ['src/sound/a.ts', 'no-such-package', 'unresolvable'],
  ])('refuse %s -> %s', async (from, to, rule) => {
    expect(await violations(from, to)).toContain(rule);
  });

  it.each([
    ['src/coach/a.ts', 'src/time/b.ts'],
    ['src/take/a.ts', 'src/kit/b.ts'],
    ['src/sound/a.ts', 'src/clock/b.ts'],
    ['src/practice/a.svelte.ts', 'src/midi/b.ts'],
    ['src/view/A.svelte', 'src/practice/b.svelte.ts'],
    ['src/cli/a.ts', 'src/index.ts'],
    ['src/cli/a.ts', 'node:fs'],
    ['src/sound/a.ts', 'tone'],
  ])('allow %s -> %s', async (from, to) => {
    expect(await violations(from, to)).toEqual([]);
  });

  it('have a line for every folder and file that lies in src', () => {
    const known = (rules.forbidden ?? []).map(({ name }) => name);
    const present = readdirSync('src').filter((name) => !name.startsWith('tsconfig'));
    for (const name of present) expect(known).toContain(`arrow-from-${name.replace(/\.ts$/, '')}`);
  });
});

it('no folder holds more than thirty files without folders inside it', () => {
  const folders = ['src', 'tests'].flatMap((top) => [
    top,
    ...readdirSync(top, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map(({ parentPath, name }) => join(parentPath, name)),
  ]);
  const crowded = folders.filter((folder) => {
    const entries = readdirSync(folder, { withFileTypes: true });
    return entries.length > 30 && !entries.some((entry) => entry.isDirectory());
  });
  expect(crowded).toEqual([]);
});
