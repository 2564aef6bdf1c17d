import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ROOT } from './install.mjs';

const WRONG = "export const planted: number = 'text';\n";

/** Errors that the type checkers must find, by the command that is responsible for them, and what they must leave alone. */
const CANARIES = [
  {
    config: 'src/tsconfig.engine.json',
    command: ['typescript/bin/tsc', '-p'],
    planted: { 'src/time/planted.ts': 'export const planted = performance.now();\n' },
    sound: { 'src/time/sound.ts': 'export {};\n' },
  },
  {
    config: 'tsconfig.json',
    command: ['svelte-check/bin/svelte-check', '--output', 'machine', '--tsconfig'],
    planted: {
      'src/practice/planted.ts': WRONG,
      'src/practice/unused.ts': 'const planted = 1;\nexport {};\n',
      'src/practice/unsure.ts': 'export const planted: number = [1][0];\n',
      'src/practice/planted.svelte.ts': WRONG,
      'src/view/Planted.svelte': `<script lang="ts">\n  ${WRONG.replace('export ', '')}</script>\n\n{planted}\n`,
      'tests/planted.test.ts': WRONG,
      '.scripts/planted.mjs': "/** @type {number} */\nexport const planted = 'text';\n",
    },
    sound: {
      'src/practice/sound.ts': "export { planted } from '../../.scripts/planted.mjs';\n",
      'src/view/Sound.svelte': '<p></p>\n',
    },
  },
];

/**
 * A scratch project with the real compiler settings and these files in it.
 *
 * @param {(typeof CANARIES)[number]} canary
 */
function runOn({ config, command: [program = '', ...options], planted, sound }) {
  const folder = mkdtempSync(join(tmpdir(), 'canary-'));
  try {
    symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'), 'junction');
    const include = ['src', 'tests'];
    writeFileSync(
      join(folder, 'tsconfig.json'),
      JSON.stringify({ extends: join(ROOT, config), include }),
    );
    for (const [file, text] of Object.entries({ ...planted, ...sound })) {
      mkdirSync(join(folder, file, '..'), { recursive: true });
      writeFileSync(join(folder, file), text);
    }
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
  const { status, stdout, stderr } = runOn(canary);
  const output = `${stdout}${stderr}`;
  const isNamed = (/** @type {string} */ file) => output.includes(file);
  const missed = Object.keys(canary.planted).filter((file) => !isNamed(file));
  const wronged = Object.keys(canary.sound).filter(isNamed);
  if (status !== 0 && missed.length === 0 && wronged.length === 0) continue;
  failed = true;
  console.error(
    `${canary.command[0]}: planted errors not reported in [${missed.join(', ')}], ` +
      `errors reported where none is in [${wronged.join(', ')}]:\n${output}`,
  );
}
process.exit(failed ? 1 : 0);
