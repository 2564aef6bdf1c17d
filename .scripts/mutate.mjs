import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Stryker } from '@stryker-mutator/core';
import { ROOT, giveUp } from './install.mjs';

/**
 * `npm run mutate -- FOLDER [FILE...]`: plants every fault the mutation tester knows in src/FOLDER, one
 * at a time, runs the tests of that folder, and lists the faults that no test noticed. Mutants that
 * change nothing anyone could notice are listed, with the reason, in .scripts/equivalent-mutants.json
 * and do not count. Takes minutes to half an hour, so it is no part of the check.
 *
 * @typedef {{ file: string, code: string, mutant: string, why: string }} Equivalent
 */

/** Least share of the faults that must be noticed, percent. */
const AIM = /** @type {Record<string, number>} */ ({ time: 90, score: 90, match: 85 });

const [folder, ...files] = process.argv.slice(2);
if (folder === undefined) giveUp('npm run mutate -- FOLDER [FILE...], such as: score gate.ts');
process.chdir(ROOT);

const source = `src/${folder}`;
const references = readdirSync('tests/reference')
  .map((name) => `tests/reference/${name}`)
  .filter((name) => readFileSync(name, 'utf8').includes(`/${source}/`));
process.env['MUTATE_TESTS'] = [`tests/${folder}/**/*.test.ts`, ...references].join(',');

const results = await new Stryker({
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  vitest: { configFile: '.scripts/mutate.vitest.config.mjs', related: false },
  mutate: (files.length > 0 ? files : ['**/*.ts']).map((file) => `${source}/${file}`),
  coverageAnalysis: 'perTest',
  ignoreStatic: true,
  concurrency: 1,
  // A wide margin, since another program may be using the processor: a mutant out of time counts as noticed.
  timeoutMS: 10_000,
  timeoutFactor: 3,
  reporters: ['progress'],
  logLevel: /** @type {any} */ ('warn'),
  tempDirName: '.mutation',
  ignorePatterns: ['dist', '.git', '.mutation', 'shared/takes/**/*.wav'],
}).runMutationTest();

/** @type {readonly Equivalent[]} */
const equivalents = JSON.parse(readFileSync('.scripts/equivalent-mutants.json', 'utf8'));
const used = new Set();

/** @param {string} text */
const oneLine = (text) => text.replace(/\s+/g, ' ').trim();

/** @param {(typeof results)[number]} mutant */
function codeOf({ fileName, location }) {
  const lines = readFileSync(fileName, 'utf8').split('\n');
  const { start, end } = location;
  const cut = lines.slice(start.line - 1, end.line);
  cut[cut.length - 1] = cut.at(-1)?.slice(0, end.column - 1) ?? '';
  cut[0] = cut[0]?.slice(start.column - 1) ?? '';
  return { code: oneLine(cut.join('\n')), line: oneLine(lines[start.line - 1] ?? '') };
}

/** @type {Map<string, { noticed: number, equivalent: number, unnoticed: string[] }>} */
const byFile = new Map();
for (const mutant of results) {
  if (!['Killed', 'Timeout', 'Survived', 'NoCoverage'].includes(mutant.status)) continue;
  const file = mutant.fileName.replaceAll('\\', '/').replace(join(ROOT, '/'), '');
  const tally = byFile.get(file) ?? { noticed: 0, equivalent: 0, unnoticed: [] };
  byFile.set(file, tally);
  if (mutant.status === 'Killed' || mutant.status === 'Timeout') {
    tally.noticed++;
    continue;
  }
  const { code, line } = codeOf(mutant);
  const known = equivalents.find(
    (each) =>
      each.file === file &&
      line.includes(each.code) &&
      each.mutant === oneLine(mutant.replacement ?? ''),
  );
  if (known) {
    tally.equivalent++;
    used.add(known);
  } else {
    const uncovered = mutant.status === 'NoCoverage' ? '  (no test comes here)' : '';
    tally.unnoticed.push(
      `  ${mutant.location.start.line}: ${line}\n      ${code} -> ${oneLine(mutant.replacement ?? '')}${uncovered}`,
    );
  }
}

let noticed = 0;
let counted = 0;
for (const [file, tally] of [...byFile].sort(([a], [b]) => a.localeCompare(b))) {
  const of = tally.noticed + tally.unnoticed.length;
  noticed += tally.noticed;
  counted += of;
  console.log(
    `${share(tally.noticed, of)}  ${file}  ${tally.noticed} of ${of}, ${tally.equivalent} equivalent`,
  );
  for (const each of tally.unnoticed) console.log(each);
}
for (const each of equivalents) {
  if (byFile.has(each.file) && !used.has(each))
    console.log(
      `noticed or no longer there, strike it off the list unless it ran out of time: ${each.file}: ${each.code} -> ${each.mutant}`,
    );
}
const aim = AIM[folder] ?? 0;
console.log(`${share(noticed, counted)}  ${source}, aim ${aim} %`);
process.exit(counted > 0 && (100 * noticed) / counted >= aim ? 0 : 1);

/**
 * @param {number} part
 * @param {number} whole
 */
function share(part, whole) {
  return `${(whole > 0 ? (100 * part) / whole : 0).toFixed(1).padStart(5)} %`;
}
