import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ROOT } from './install.mjs';

const WRONG = "export const planted: number = 'text';\n";

/** Errors that the type checkers must find, each by the command that is responsible for it. */
const CANARIES = [
  {
    file: 'src/time/planted.ts',
    text: 'export const planted = performance.now();\n',
    config: 'src/tsconfig.engine.json',
    command: ['typescript/bin/tsc', '-p'],
  },
  {
    file: 'src/practice/planted.ts',
    text: WRONG,
    config: 'tsconfig.json',
    command: ['typescript/bin/tsc', '-p'],
  },
  {
    file: 'src/view/Planted.svelte',
    text: `<script lang="ts">\n  ${WRONG.replace('export ', '')}</script>\n\n{planted}\n`,
    config: 'tsconfig.json',
    command: ['svelte-check/bin/svelte-check', '--output', 'machine', '--tsconfig'],
  },
];

/**
 * A scratch project with the real compiler settings and one planted error.
 *
 * @param {(typeof CANARIES)[number]} canary
 * @param {boolean} planted without it the file is empty, and the checker must be content
 */
function runOn(canary, planted) {
  const folder = mkdtempSync(join(tmpdir(), 'canary-'));
  try {
    symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'), 'junction');
    const config = { extends: join(ROOT, canary.config), include: [canary.file] };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(config));
    mkdirSync(join(folder, canary.file, '..'), { recursive: true });
    const clean = canary.file.endsWith('.ts') ? 'export {};\n' : '<p></p>\n';
    writeFileSync(join(folder, canary.file), planted ? canary.text : clean);
    const [program = '', ...options] = canary.command;
    return spawnSync(
      process.execPath,
      [join(ROOT, 'node_modules', program), ...options, 'tsconfig.json'],
      { cwd: folder, encoding: 'utf8' },
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

let failed = false;
for (const canary of CANARIES) {
  const [wrong, clean] = [runOn(canary, true), runOn(canary, false)];
  const named = `${wrong.stdout}${wrong.stderr}`.includes(canary.file);
  if (wrong.status !== 0 && named && clean.status === 0) continue;
  failed = true;
  console.error(
    clean.status === 0
      ? `${canary.command[0]} did not report the error planted in ${canary.file}.`
      : `${canary.command[0]} fails even without a planted error:\n${clean.stdout}${clean.stderr}`,
  );
}
process.exit(failed ? 1 : 0);
