import type { Phrase } from '../index';
import { formatOf } from './formats';
import { CONVERT_HELP } from './help';
import { InputError, runCommand } from './input-error';
import { commandLine } from './options';
import { writeOutput } from './write-output';

const USAGE = 'convert IN -o OUT [--layer N|all] [--bars N] [--force]';
const MOST_BARS = 10_000;
/** Before the phrase is known. */
const MOST_LAYERS = 1000;
const ALL = 'all';

/** Reads a phrase from one form of file and writes it in another; says what of it is lost on the way. */
export const main = (args: readonly string[]): Promise<void> =>
  runCommand(args, { usage: USAGE, help: CONVERT_HELP }, () => {
    const words = commandLine(
      args,
      {
        layer: { type: 'string' },
        bars: { type: 'string' },
        output: { type: 'string', short: 'o' },
        force: { type: 'boolean' },
      },
      USAGE,
    );
    const input = words.onlyFile('file');
    const output = words.text('output');
    if (output === undefined)
      throw new InputError(`command line: expected -o and a file name. Usage: ${USAGE}`);
    const from = formatOf(input);
    const to = formatOf(output);
    const bars = words.whole('bars', { from: 1, to: MOST_BARS });
    if (bars !== undefined && !to.isOfBars)
      throw new InputError(`command line: --bars: a ${to.ending} file has no bars; leave it out.`);
    const asked = words.text('layer');
    if (asked !== undefined && !from.namesLayers && !to.isOfBars)
      throw new InputError(
        `command line: --layer: a ${to.ending} file has all layers; leave it out.`,
      );
    const areAll = asked === ALL && !from.namesLayers;
    const layer = areAll ? undefined : words.whole('layer', { from: 1, to: MOST_LAYERS });
    const read = from.read(input, from.namesLayers ? layer : undefined);
    const { phrase } = read;
    const layers = areAll
      ? phrase.layers.map((_, i) => i + 1)
      : from.namesLayers || layer === undefined
        ? undefined
        : [layerOf(phrase, layer)];
    const { content, sentences } = to.write(phrase, { layers, bars });
    writeOutput(output, content, { input, force: words.flag('force') });
    for (const sentence of [...read.sentences, ...sentences]) process.stdout.write(`${sentence}\n`);
  });

/** @throws InputError when the phrase has no such layer. */
function layerOf({ layers: { length } }: Phrase, layer: number): number {
  if (layer <= length) return layer;
  throw new InputError(
    `command line: --layer ${layer}: expected a whole number from 1 to ${length}.`,
  );
}
