import { spawnSync } from 'node:child_process';
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

/** What each step promises, and the Node program that checks it. */
const STEPS = [
  ['engine types (no browser, no Node)', tsc, '-p', 'src/tsconfig.engine.json'],
  ['types', tsc, '-p', 'tsconfig.json'],
  [
    'component types',
    bin('svelte-check/bin/svelte-check'),
    '--tsconfig',
    'tsconfig.json',
    '--fail-on-warnings',
  ],
  ['planted type errors are found', '.scripts/canary.mjs'],
  [
    'lint',
    bin('eslint/bin/eslint.js'),
    '--config',
    '.scripts/eslint.config.mjs',
    '--max-warnings',
    '0',
    '.',
  ],
  ['format', bin('prettier/bin/prettier.cjs'), '--check', '.'],
  [
    'arrows between modules',
    bin('dependency-cruiser/bin/dependency-cruise.mjs'),
    '--config',
    '.dependency-cruiser.cjs',
    'src',
  ],
  ['unit and component tests', ...vitestOn('unit', 'engine', 'components')],
  ['build', bin('vite/bin/vite.js'), 'build', '--logLevel', 'warn'],
  ['scripts until the start button can be pressed, gzip', '.scripts/first-load.mjs'],
  ['browser tests', ...vitestOn('browser', 'browser', 'killed browser')],
];

/** @returns {string | undefined} undefined outside a git checkout */
function workingTree() {
  const status = spawnSync('git', ['status', '--porcelain'], { cwd: ROOT, encoding: 'utf8' });
  return status.status === 0 ? status.stdout : undefined;
}

/**
 * Runs one step; what it printed is shown only when it failed, but for a figure it tells.
 *
 * @param {string} name
 * @param {string[]} args
 */
function passes(name, args) {
  const begun = performance.now();
  process.stdout.write(`${name} ... `);
  const run = spawnSync(process.execPath, args, {
    cwd: ROOT,
    env: { ...process.env, CI: 'true', NO_COLOR: '1', FORCE_COLOR: undefined },
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
    stdio: ['ignore', 'pipe', 'pipe'],
    timeout: STEP_LIMIT_MS,
    killSignal: 'SIGKILL',
  });
  const seconds = ((performance.now() - begun) / 1000).toFixed(1);
  const ok = run.status === 0;
  const figure = /^figure: (.+)$/m.exec(run.stdout ?? '')?.[1];
  console.log(`${ok ? 'ok' : 'FAILED'}  ${seconds} s${figure === undefined ? '' : `  ${figure}`}`);
  if (!ok) {
    console.log(`${run.stdout}${run.stderr}`);
    if (run.error) console.log(`${name}: ${run.error.message}`);
  }
  return ok;
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
/** @type {string | undefined} */
let stoppedAt;
for (const [name = '', ...args] of STEPS) {
  if (passes(name, args)) continue;
  stoppedAt = name;
  break;
}
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
