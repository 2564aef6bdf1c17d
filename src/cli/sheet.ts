import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { extname } from 'node:path';
import {
  engraveSheet,
  facesOf,
  layerScore,
  MOST_BARS,
  sheetFile,
  type Engraver,
  type Phrase,
  type SheetFace,
  type SheetFaceFiles,
  type SheetLook,
  type SheetPicture,
} from '../index';
import { SHEET_HELP } from './help';
import { InputError, runCommand } from './input-error';
import { commandLine } from './options';
import { inputName, readPhrase } from './read-input';
import { writeOutput } from './write-output';

const USAGE =
  'sheet PHRASE.json -o OUT.svg [--layer N|all] [--bars N] [--letter] [--stand] [--no-sticking] [--no-counts] [--force]';
const ENDING = '.svg';
const ALL = 'all';

export const main = (args: readonly string[]): Promise<void> =>
  runCommand(args, { usage: USAGE, help: SHEET_HELP }, async () => {
    const words = commandLine(
      args,
      {
        output: { type: 'string', short: 'o' },
        layer: { type: 'string' },
        bars: { type: 'string' },
        letter: { type: 'boolean' },
        stand: { type: 'boolean' },
        'no-sticking': { type: 'boolean' },
        'no-counts': { type: 'boolean' },
        force: { type: 'boolean' },
      },
      USAGE,
    );
    const input = words.onlyFile('phrase');
    const output = words.text('output');
    if (output === undefined)
      throw new InputError(`command line: expected -o OUT.svg. Usage: ${USAGE}`);
    if (extname(output).toLowerCase() !== ENDING)
      throw new InputError(`${output}: expected a name that ends in ${ENDING}.`);
    const phrase = readPhrase(input);
    const last = phrase.layers.length;
    const isAll = words.text('layer') === ALL;
    const layer = isAll ? last : (words.whole('layer', { from: 1, to: last }) ?? last);
    const bars = words.whole('bars', { from: 1, to: MOST_BARS });
    const look: SheetLook = {
      paper: words.flag('letter') ? 'Letter' : 'A4',
      size: words.flag('stand') ? 'stand' : 'desk',
      hasStickings: !words.flag('no-sticking'),
      hasCounts: !words.flag('no-counts'),
      hasMarks: isAll,
    };
    const engraver = await createEngraver();
    const pictures = phrase.layers
      .map((_, i) => i + 1)
      .filter((number) => isAll || number === layer)
      .map((number) => engraved(engraver, { phrase, layer: number, bars, look, input }));
    const svg = sheetFile(phrase, pictures, look, faceFiles(facesOf(phrase)));
    writeOutput(output, svg, { input, force: words.flag('force') });
  });

interface Wanted {
  readonly phrase: Phrase;
  readonly layer: number;
  readonly bars: number | undefined;
  readonly look: SheetLook;
  readonly input: string;
}

function engraved(engraver: Engraver, { phrase, layer, bars, look, input }: Wanted): SheetPicture {
  try {
    return engraveSheet(engraver, layerScore(phrase, layer, bars), look);
  } catch (error) {
    // What comes out of the engraver's program is no Error.
    const why = error instanceof Error ? error.message : 'the engraver stopped';
    throw new InputError(
      `${inputName(input)}: layer ${layer} could not be engraved (${why}); ask for fewer bars.`,
    );
  }
}

const SANS = '@fontsource-variable/source-sans-3/files/source-sans-3';
const SERIF = '@fontsource-variable/source-serif-4/files/source-serif-4';
const FILES: Readonly<Record<SheetFace, string>> = {
  letters: `${SANS}-latin-wght-normal.woff2`,
  moreLetters: `${SANS}-latin-ext-wght-normal.woff2`,
  title: `${SERIF}-latin-wght-normal.woff2`,
  moreTitle: `${SERIF}-latin-ext-wght-normal.woff2`,
};

function faceFiles(faces: readonly SheetFace[]): SheetFaceFiles {
  const { resolve } = createRequire(import.meta.url);
  return Object.fromEntries(
    faces.map((face) => [face, readFileSync(resolve(FILES[face])).toString('base64')]),
  );
}

/** Megabytes that only a sheet needs. */
async function createEngraver(): Promise<Engraver> {
  const { default: createVerovioModule } = await import('verovio/wasm');
  const { enableLog, LOG_OFF, VerovioToolkit } = await import('verovio/esm');
  const module = await createVerovioModule();
  enableLog(LOG_OFF, module);
  return new VerovioToolkit(module);
}
