import { execFile, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { constants, setPriority, tmpdir } from 'node:os';
import { join } from 'node:path';
import { ROOT, ensureChromium, ensureInstalled, ensureWritable } from './install.mjs';

const STEP_LIMIT_MS = 20 * 60_000;

ensureWritable();
ensureInstalled();
process.env['CHROMIUM_PATH'] = ensureChromium();

const scratch = mkdtempSync(join(tmpdir(), 'check-'));
/** Built once; what serves it to a browser finds it by this name. */
const APP = (process.env['APP_UNDER_TEST'] = join(scratch, 'app'));
const BUILT_INTO = ['--outDir', APP, '--emptyOutDir', '--sourcemap', 'hidden'];
const bin = (/** @type {string} */ path) => join(ROOT, 'node_modules', path);
const tsc = bin('typescript/bin/tsc');
const vitest = bin('vitest/vitest.mjs');
const report = (/** @type {string} */ name) => join(scratch, `${name}.json`);

const vitestOn = (
  /** @type {string} */ project,
  name = project,
  /** @type {string[]} */ more = [],
) => [
  vitest,
  'run',
  '--project',
  project,
  '--allowOnly=false',
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${report(name)}`,
  ...more,
];

/** In Chromium a page may answer late on a busy machine. What fails is tried twice more, and named even if it passes then. */
const inChromium = (
  /** @type {string} */ project,
  name = project,
  /** @type {string[]} */ more = [],
) => vitestOn(project, name, ['--retry=2', '--slowTestThreshold=0', ...more]);

const browserFiles = (/** @type {string[]} */ ...names) =>
  names.map((name) => `tests/browser/${name}.test.ts`);

// They play to a click and time what is heard, or lose what is a second old: no other page may take the processor from
// them. Those of the first list play on one page at a time, so that two of them can wait side by side; the others on three.
const MUSIC_ON_ONE_PAGE = browserFiles(
  'live-path',
  'offset',
  'microphone',
  'passes',
  'wall-clock',
  'click-offline',
);
const MUSIC = browserFiles('capture', 'compose', 'nothing-silent', 'practise', 'kill');
// Bars pass in these, too, but their strokes carry their own time: they wait for the next bar while others compute.
const PLAYED = browserFiles(
  'first-start',
  'lost-place',
  'exercises',
  'hands-free',
  'live-messages',
  'folder-backup',
  'controls',
  'left-in-mid-take',
);
const not = (/** @type {string[]} */ files) => files.flatMap((file) => ['--exclude', file]);

const { PRIORITY_NORMAL, PRIORITY_BELOW_NORMAL, PRIORITY_LOW } = constants.priority;

/** What each step promises, and the Node program that checks it. These wait for music to be played. */
const MUSIC_STEPS = [
  ['build', bin('vite/bin/vite.js'), 'build', '--logLevel', 'warn', ...BUILT_INTO],
  ['scripts until the start button can be pressed, gzip', '.scripts/first-load.mjs', APP],
  [
    'browser tests that play on one page',
    ...inChromium('browser', 'one-page', [...MUSIC_ON_ONE_PAGE, '--fileParallelism']),
  ],
  ['browser tests that play on several', ...inChromium('browser', 'music', MUSIC)],
];

/** Side by side. */
const BROWSER_STEPS = [
  ['browser tests that are played', ...inChromium('browser', 'played', PLAYED)],
  [
    'other browser tests',
    ...inChromium('browser', 'browser', not([...MUSIC_ON_ONE_PAGE, ...MUSIC, ...PLAYED])),
  ],
];
const COMPONENT_STEPS = [['component tests', ...inChromium('components')]];

const ENGINE_STEPS = [['engine tests', ...vitestOn('engine')]];

const READING_STEPS = [
  // On one core: begun last, it would leave the other alone at the end.
  [
    'lint',
    // A sixth faster, measured: what it allocates dies young.
    '--max-semi-space-size=64',
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
  [
    'arrows between modules',
    bin('dependency-cruiser/bin/dependency-cruise.mjs'),
    '--config',
    '.dependency-cruiser.cjs',
    'src',
  ],
  ['format', bin('prettier/bin/prettier.cjs'), '--check', '.'],
];

/** @returns {string | undefined} undefined outside a git checkout */
function workingTree() {
  const status = spawnSync('git', ['status', '--porcelain'], { cwd: ROOT, encoding: 'utf8' });
  return status.status === 0 ? status.stdout : undefined;
}

/** Ends every step that runs when one has failed. */
const failure = new AbortController();
/** @type {string | undefined} */
let stoppedAt;

/**
 * Runs one step; what it printed is shown only when it failed, but for a figure it tells.
 *
 * @param {string[]} step
 * @param {number} priority its own and its children's; what is lower takes what others leave over
 * @returns {Promise<void>}
 */
function run([name = '', ...args], priority) {
  const begun = performance.now();
  return new Promise((resolve) => {
    const options = {
      cwd: ROOT,
      env: { ...process.env, CI: 'true', NO_COLOR: '1', FORCE_COLOR: undefined },
      maxBuffer: 2 ** 28,
      signal: failure.signal,
      timeout: STEP_LIMIT_MS,
      killSignal: /** @type {const} */ ('SIGKILL'),
    };
    const step = execFile(process.execPath, args, options, (error, stdout, stderr) => {
      if (!error || stoppedAt === undefined) {
        const seconds = ((performance.now() - begun) / 1000).toFixed(1);
        const figure = /^figure: (.+)$/m.exec(stdout)?.[1];
        const told = figure === undefined ? '' : `  ${figure}`;
        console.log(`${name} ... ${error ? 'FAILED' : 'ok'}  ${seconds} s${told}`);
        for (const [, test, retries] of stdout.matchAll(/^ *✓ (.+) \(retry x(\d+)\)/gm))
          console.log(`  passed at attempt ${Number(retries) + 1}: ${test}`);
        if (error) console.log(`${stdout}${stderr}`);
        if (error?.killed) console.log(`${name}: ended after ${STEP_LIMIT_MS / 60_000} minutes`);
      }
      if (error && stoppedAt === undefined) {
        stoppedAt = name;
        failure.abort();
      }
      resolve();
    });
    step.stdin?.end();
    // Even the normal one may not be set by a user who has less.
    if (priority !== PRIORITY_NORMAL && step.pid !== undefined) setPriority(step.pid, priority);
  });
}

/**
 * One step after the other, until one fails, here or elsewhere.
 *
 * @param {string[][]} steps
 * @param {number} priority
 */
async function runAll(steps, priority) {
  for (const step of steps) if (stoppedAt === undefined) await run(step, priority);
}

/** Sums of Vitest's own counts over the reports written so far. */
function testCounts() {
  const counts = { passed: 0, failed: 0, skipped: 0 };
  for (const path of ['engine', 'components', 'one-page', 'music', 'played', 'browser']
    .map(report)
    .filter((file) => existsSync(file))) {
    const told = JSON.parse(readFileSync(path, 'utf8'));
    counts.passed += told.numPassedTests;
    counts.failed += told.numFailedTests;
    counts.skipped += told.numPendingTests + told.numTodoTests;
  }
  return counts;
}

const before = workingTree();
// Pages mostly wait, for music to be played and for frames. What they leave over computes everything else, which gives
// way to them whenever they have something to do.
await Promise.all([
  runAll(MUSIC_STEPS, PRIORITY_NORMAL).then(() =>
    Promise.all([
      ...BROWSER_STEPS.map((step) => runAll([step], PRIORITY_NORMAL)),
      runAll(COMPONENT_STEPS, PRIORITY_BELOW_NORMAL),
    ]),
  ),
  runAll(ENGINE_STEPS, PRIORITY_LOW),
  runAll(READING_STEPS, PRIORITY_LOW),
]);
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
