import { register as registerHooks } from 'node:module';
import { pathToFileURL } from 'node:url';
import { ROOT, ensureChromium, ensureInstalled, giveUp, giveUpOnPackages } from './install.mjs';

/** @type {Readonly<Record<string, { file: string, chromium: boolean }>>} */
const PROGRAMS = {
  assess: { file: 'src/cli/assess.ts', chromium: false },
  expand: { file: 'src/cli/expand.ts', chromium: false },
  capture: { file: 'src/cli/capture.ts', chromium: false },
  convert: { file: 'src/cli/convert.ts', chromium: false },
  sheet: { file: 'src/cli/sheet.ts', chromium: false },
  answers: { file: 'tests/cli/same-answers-run.ts', chromium: false },
  fuzz: { file: 'tests/fuzz/fuzz-run.ts', chromium: false },
  claims: { file: 'tests/claims/run.ts', chromium: false },
  bench: { file: 'tests/bench/run.ts', chromium: true },
  pictures: { file: 'tests/browser/pictures.ts', chromium: true },
};

const [name = '', ...args] = process.argv.slice(2);
const program = Object.hasOwn(PROGRAMS, name) ? PROGRAMS[name] : undefined;
if (program === undefined) {
  giveUp(`"${name}" is not one of ${Object.keys(PROGRAMS).join(', ')}.`, 2);
}

ensureInstalled();
if (program.chromium) ensureChromium();

const { register } = await import('tsx/esm/api').catch(giveUpOnPackages);
const file = new URL(program.file, pathToFileURL(ROOT));
register();
// The app's build puts a worker into the script that asks for it; here there is none, and its starter does without.
const WITHOUT_WORKERS = `export const resolve = (specifier, context, next) =>
  specifier.endsWith('?worker&inline')
    ? { url: 'data:text/javascript,export default undefined', shortCircuit: true }
    : next(specifier, context);`;
registerHooks(`data:text/javascript,${encodeURIComponent(WITHOUT_WORKERS)}`);

// npm runs scripts in the project's folder; file names are meant from where the command was typed.
if (process.env['INIT_CWD']) process.chdir(process.env['INIT_CWD']);
process.argv = [process.execPath, program.file, ...args];
const { main } = await import(file.href);
await main?.(args);
