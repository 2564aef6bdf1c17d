import { execFile, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ROOT, ensureChromium, ensureInstalled } from './install.mjs';

const STEP_LIMIT_MS = 15 * 60_000;

ensureInstalled();
process.env['CHROMIUM_PATH'] = ensureChromium();

const scratch = mkdtempSync(join(tmpdir(), 'check-'));
const bin = (/** @type {string} */ path) => join(ROOT, 'node_modules', path);
const tsc = bin('typescript/bin/tsc');
const vitest = bin('vitest/vitest.mjs');
const report = (/** @type {string} */ name) => join(scratch, `${name}.json`);

const vitestOn = (/** @type {string} */ name, /** @type {string[]} */ ...projects) => [
  vitest,
  'run',
  ...projects.flatMap((project) => ['--project', project]),
  '--allowOnly=false',
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${report(name)}`,
];

/**
 * What each step promises, and the Node program that checks it. None of these uses more than one core, so two run at a
 * time, the longest from the beginning.
 */
const READING_STEPS = [
  [
    'lint',
    bin('eslint/bin/eslint.js'),
    '--config',
    '.scripts/eslint.config.mjs',
    '--max-warnings',
    '0',
    '.',
  ],
  ['engine types (no browser, no Node)', tsc, '-p', 'src/tsconfig.engine.json'],
  [
    'types, in components too',
    bin('svelte-check/bin/svelte-check'),
    '--tsconfig',
    'tsconfig.json',
    '--fail-on-warnings',
  ],
  ['planted type errors are found', '.scripts/canary.mjs'],
  ['format', bin('prettier/bin/prettier.cjs'), '--check', '.'],
  [
    'arrows between modules',
    bin('dependency-cruiser/bin/dependency-cruise.mjs'),
    '--config',
    '.dependency-cruiser.cjs',
    'src',
  ],
];

/** These use all there is, or measure time. */
const RUNNING_STEPS = [
  ['unit and component tests', ...vitestOn('unit', 'engine', 'components')],
  ['build', bin('vite/bin/vite.js'), 'build', '--logLevel', 'warn'],
  ['scripts until the start button can be pressed, gzip', '.scripts/first-load.mjs'],
  ['browser tests', ...vitestOn('browser', 'browser')],
];

/** @returns {string | undefined} undefined outside a git checkout */
function workingTree() {
  const status = spawnSync('git', ['status', '--porcelain'], { cwd: ROOT, encoding: 'utf8' });
  return status.status === 0 ? status.stdout : undefined;
}

/**
 * Runs one step; what it printed is shown only when it failed, but for a figure it tells.
 *
 * @param {string[]} step
 * @returns {Promise<boolean>}
 */
function passes([name = '', ...args]) {
  const begun = performance.now();
  return new Promise((resolve) => {
    const options = {
      cwd: ROOT,
      env: { ...process.env, CI: 'true', NO_COLOR: '1', FORCE_COLOR: undefined },
      maxBuffer: 2 ** 28,
      timeout: STEP_LIMIT_MS,
      killSignal: /** @type {const} */ ('SIGKILL'),
    };
    const run = execFile(process.execPath, args, options, (error, stdout, stderr) => {
      const seconds = ((performance.now() - begun) / 1000).toFixed(1);
      const figure = /^figure: (.+)$/m.exec(stdout)?.[1];
      const told = figure === undefined ? '' : `  ${figure}`;
      console.log(`${name} ... ${error ? 'FAILED' : 'ok'}  ${seconds} s${told}`);
      if (error) console.log(`${stdout}${stderr}`);
      if (error?.killed) console.log(`${name}: ended after ${STEP_LIMIT_MS / 60_000} minutes`);
      resolve(!error);
    });
    run.stdin?.end();
  });
}

/**
 * Runs steps, so many at a time, until one fails.
 *
 * @param {string[][]} steps
 * @param {number} atOnce
 * @returns {Promise<string | undefined>} the step that failed
 */
async function firstFailure(steps, atOnce) {
  const waiting = [...steps];
  /** @type {string | undefined} */
  let failed;
  const work = async () => {
    for (let step = waiting.shift(); step && failed === undefined; step = waiting.shift())
      if (!(await passes(step))) failed ??= step[0];
  };
  await Promise.all(Array.from({ length: atOnce }, work));
  return failed;
}

/** Sums of Vitest's own counts over the reports written so far. */
function testCounts() {
  const counts = { passed: 0, failed: 0, skipped: 0 };
  for (const path of ['unit', 'browser'].map(report).filter((file) => existsSync(file))) {
    const told = JSON.parse(readFileSync(path, 'utf8'));
    counts.passed += told.numPassedTests;
    counts.failed += told.numFailedTests;
    counts.skipped += told.numPendingTests + told.numTodoTests;
  }
  return counts;
}

const before = workingTree();
let stoppedAt = (await firstFailure(READING_STEPS, 2)) ?? (await firstFailure(RUNNING_STEPS, 1));
const counts = testCounts();
rmSync(scratch, { recursive: true, force: true });

if (stoppedAt === undefined && counts.skipped > 0) {
  stoppedAt = `${counts.skipped} skipped tests`;
}
const after = workingTree();
if (stoppedAt === undefined && after !== before) {
  stoppedAt = 'unchanged files';
  console.log(`git status before the check:\n${before}\nand after it:\n${after}`);
}
if (stoppedAt !== undefined) console.log(`Failed: ${stoppedAt}.`);

// A step that fails without a failing test counts as one failure.
const failed = stoppedAt === undefined ? counts.failed : Math.max(counts.failed, 1);
console.log(`${counts.passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
