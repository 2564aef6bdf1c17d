import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { ROOT } from './install.mjs';

/** The file in the built app. */
export const NOTICES_FILE = 'licences.txt';

const PACKAGE_FOLDER = /^.*\/node_modules\/(?:@[^/]+\/)?[^/]+/;
/** What a bundler puts in by itself, named after the package it comes from. */
const INJECTED = /^\0([\w-]+)\//;
const LICENCE_FILE = /^((third-party-)?licen[cs]e|copying|notice|copyright)/i;
/** Where the licences of a bundler's own parts begin, of which nothing goes into what it builds. */
const NOT_PASSED_ON = /^# Licenses of bundled dependencies$[^]*/m;
/** A package without such a file may have its licence in its README, up to the next heading as high. */
const LICENCE_SECTION = /^#+ *licen[cs]e\s*\n([^]+?)(?=^#{1,2} |(?![^]))/im;
/** Texts of licences that a package names and does not bring; the lesser one is read with the one it adds to. */
const LICENCES = new URL('licences/', import.meta.url);
/** @type {Readonly<Record<string, string[]>>} */
const TEXTS_OF_LICENCE = {
  ISC: ['ISC.txt'],
  'LGPL-3.0-or-later': ['LGPL-3.0.txt', 'GPL-3.0.txt'],
};
const LINE = `\n\n${'-'.repeat(72)}\n\n`;

/**
 * Gathers the packages of everything that goes into the app, code and fonts, that of workers too, and writes what their
 * licences ask to go with it. Vite's own `build.license` sees no fonts, no workers, nothing of its own, and lets a
 * package without a licence file pass.
 */
export function notices() {
  /** @type {Set<string>} */
  const folders = new Set();
  /** @param {import('vite').Rolldown.OutputBundle} bundle */
  const gather = (bundle) => {
    for (const output of Object.values(bundle)) {
      const sources = output.type === 'chunk' ? output.moduleIds : output.originalFileNames;
      for (const source of sources) {
        const folder = folderOf(source);
        if (folder !== undefined) folders.add(folder);
      }
    }
  };
  return {
    /** @type {import('vite').Plugin} */
    inWorkers: {
      name: 'notices-in-workers',
      generateBundle: (_, bundle) => gather(bundle),
    },
    /** @type {import('vite').Plugin} */
    inApp: {
      name: 'notices',
      apply: 'build',
      generateBundle(_, bundle) {
        gather(bundle);
        this.emitFile({ type: 'asset', fileName: NOTICES_FILE, source: noticesOf([...folders]) });
      },
    },
  };
}

/**
 * The package that a module or file comes from; undefined for the app's own.
 *
 * @param {string} source
 */
function folderOf(source) {
  const [, injecting] = INJECTED.exec(source) ?? [];
  if (injecting !== undefined) return join(ROOT, 'node_modules', injecting);
  if (source.startsWith('\0'))
    throw new Error(`${source.slice(1)}: in the app, and no package named`);
  return PACKAGE_FOLDER.exec(resolve(ROOT, source).replaceAll('\\', '/'))?.[0];
}

/**
 * The licence texts of packages, by name, after the app's own.
 *
 * @param {string[]} folders
 * @throws when a package has none
 */
function noticesOf(folders) {
  const own = readFileSync(join(ROOT, 'LICENSE'), 'utf8');
  const packages = folders.map(noticeOf).sort((a, b) => (a.name < b.name ? -1 : 1));
  // The mark at the start makes browsers read a plain file as UTF-8.
  return `\uFEFF${[own, ...packages.map(({ text }) => text)].map((text) => text.trim()).join(LINE)}\n`;
}

/** @param {string} folder */
function noticeOf(folder) {
  const { name, version, license, author } = JSON.parse(
    readFileSync(join(folder, 'package.json'), 'utf8'),
  );
  const read = (/** @type {string} */ file) =>
    readFileSync(join(folder, file), 'utf8').replace(NOT_PASSED_ON, '').trim();
  const files = readdirSync(folder).filter((file) => LICENCE_FILE.test(file));
  const texts =
    files.length > 0 ? files.map(read) : (licenceByName(license) ?? [licenceInReadme(folder)]);
  if (texts.some((text) => text === undefined))
    throw new Error(`${folder}: a package in the app without a licence text`);
  return {
    name,
    text: `${name} ${version} (${license})${byAuthor(author)}\n\n${texts.join('\n\n')}`,
  };
}

/** @param {unknown} author of a package, who may be left out or be more than a name */
const byAuthor = (author) => (typeof author === 'string' ? `, ${author}` : '');

/** @param {string} folder */
function licenceInReadme(folder) {
  const readme = join(folder, 'README.md');
  return existsSync(readme)
    ? LICENCE_SECTION.exec(readFileSync(readme, 'utf8'))?.[1]?.trim()
    : undefined;
}

/** @param {string} name */
const licenceByName = (name) =>
  TEXTS_OF_LICENCE[name]?.map((file) => readFileSync(new URL(file, LICENCES), 'utf8').trim());
