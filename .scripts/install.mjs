import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromiumPath } from './chromium.mjs';

export const ROOT = fileURLToPath(new URL('..', import.meta.url));

const INSTALLED_LOCK = join(ROOT, 'node_modules', '.package-lock.json');

/**
 * One line on standard error, then the end: something the machine lacks, and what to do about it.
 *
 * @param {string} line
 * @param {number} [code] 1; 2 when the command line is wrong
 * @returns {never}
 */
export function giveUp(line, code = 1) {
  process.stderr.write(`${line}\n`);
  process.exit(code);
}

/**
 * The end for a package that is there and cannot be loaded: what npm wrote was changed since.
 *
 * @param {unknown} error
 * @returns {never}
 */
export function giveUpOnPackages(error) {
  const [line] = String(/** @type {Error} */ (error).message).split('\n');
  giveUp(`node_modules is damaged (${line}): delete that folder, then run this again.`);
}

/**
 * A file of the project, which only a damaged copy lacks.
 *
 * @param {string} name
 */
function readProjectJson(name) {
  try {
    return JSON.parse(readFileSync(join(ROOT, name), 'utf8'));
  } catch (error) {
    const [line] = /** @type {Error} */ (error).message.split('\n');
    return giveUp(`${name} cannot be read (${line}): take the project's own again.`);
  }
}

/** @param {string} line */
const tell = (line) => process.stderr.write(`${line}\n`);

/** @param {string} text */
const numbers = (text) => text.split('.').map(Number);

/**
 * Whether a Node version is inside a range written as in `engines`: `^20.19 || ^22.12 || >=24`.
 *
 * @param {string} version without the leading v
 * @param {string} range
 */
export function nodeFits(version, range) {
  const [major = 0, minor = 0] = numbers(version);
  return range.split('||').some((part) => {
    const [wantedMajor = 0, wantedMinor = 0] = numbers(part.trim().replace(/^(\^|>=)/, ''));
    const newerMajor = major > wantedMajor && part.trim().startsWith('>=');
    return newerMajor || (major === wantedMajor && minor >= wantedMinor);
  });
}

function checkNode() {
  const { engines } = readProjectJson('package.json');
  if (nodeFits(process.versions.node, engines.node)) return;
  giveUp(`Node ${process.versions.node} is not supported: install one of ${engines.node}.`);
}

/** What npm last wrote into node_modules; undefined when that cannot be told. */
function installedPackages() {
  try {
    return JSON.parse(readFileSync(INSTALLED_LOCK, 'utf8')).packages;
  } catch {
    return undefined;
  }
}

/** Whether node_modules is what the lock file asks for; packages for other platforms may be absent. */
function installedAsLocked() {
  const wanted = readProjectJson('package-lock.json').packages;
  const installed = installedPackages();
  if (installed === undefined) return false;
  return Object.keys(wanted).every((path) => {
    if (path === '') return true;
    const present = installed[path];
    return present === undefined
      ? wanted[path].optional === true
      : present.version === wanted[path].version && existsSync(join(ROOT, path, 'package.json'));
  });
}

/** Where builds and tests write; a folder that is not there is made in the one around it. */
const WRITTEN = [
  '',
  'node_modules',
  'node_modules/.vite',
  'node_modules/.vite-temp',
  'dist',
  'dist/assets',
];

/** The end where the project cannot be written to: it is someone else's, or on a disk that is only read. */
export function ensureWritable() {
  for (const folder of WRITTEN.map((name) => join(ROOT, name)).filter((name) => existsSync(name)))
    try {
      accessSync(folder, constants.W_OK);
    } catch (error) {
      const { code } = /** @type {NodeJS.ErrnoException} */ (error);
      giveUp(`${folder} cannot be written to (${code}): copy the project to a folder of your own.`);
    }
}

function npmCi() {
  const npm = process.env['npm_execpath'];
  const [program, ...first] = npm?.endsWith('.js') ? [process.execPath, npm] : ['npm'];
  const run = spawnSync(program ?? 'npm', [...first, 'ci', '--include=dev', '--ignore-scripts'], {
    cwd: ROOT,
    stdio: ['ignore', 2, 2],
    shell: first.length === 0 && process.platform === 'win32',
  });
  if (run.status !== 0) giveUp('npm ci failed; its own message is above.');
}

/** Makes node_modules agree with package-lock.json. Everything it says goes to standard error. */
export function ensureInstalled() {
  checkNode();
  if (installedAsLocked()) return;
  ensureWritable();
  tell('Installing packages (npm ci) ...');
  npmCi();
}

function installChromium() {
  tell('Installing Chromium (apt-get) ...');
  const aptGet = (/** @type {string[]} */ ...args) =>
    spawnSync('apt-get', args, {
      stdio: ['ignore', 2, 2],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    }).status === 0;
  const packages = ['chromium', 'fonts-dejavu-core'];
  return aptGet('update') && aptGet('install', '-y', '--no-install-recommends', ...packages);
}

/**
 * The path of a Chromium the tests can drive; installs Debian's where that is possible.
 *
 * @returns {string}
 */
export function ensureChromium() {
  const found = chromiumPath();
  if (found !== undefined) return found;
  const named = process.env['CHROMIUM_PATH'];
  if (named) {
    return giveUp(`No Chromium: CHROMIUM_PATH is ${named}, and there is no such file.`);
  }
  const mayInstall = existsSync('/etc/debian_version') && process.getuid?.() === 0;
  const installed = mayInstall && installChromium() ? chromiumPath() : undefined;
  return (
    installed ??
    giveUp(
      'No Chromium: the browser tests need Chromium or Chrome. Install it, or set CHROMIUM_PATH to the program.',
    )
  );
}
