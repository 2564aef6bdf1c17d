import { MAX_REACH_US } from '../index';
import { assessFile, type AssessedFile } from './assess-input';
import { assessJson } from './assess-json';
import { assessReport } from './assess-report';
import { ASSESS_HELP } from './help';
import { InputError, runCommand } from './input-error';
import { commandLine, TEMPO } from './options';
import { inputName, readKit, readMidi, readPhrase, STANDARD_INPUT } from './read-input';

const USAGE =
  'assess TAKE.mid --phrase PHRASE.json [--layer N] [--tempo BPM] [--count-in BARS] [--tolerance MS] [--reach MS] [--kit KIT.json] [--json]';
/** A stroke that no tolerance can hold is none: a millisecond is what a kit's messages are true to. */
const WINDOW_MS = { from: 1, to: MAX_REACH_US / 1000 };

/** Prints how well a recorded take answers a phrase. */
export const main = (args: readonly string[]): Promise<void> =>
  runCommand(args, { usage: USAGE, help: ASSESS_HELP }, () => {
    const { assessed, isJson } = assessWords(args);
    const output = isJson ? JSON.stringify(assessJson(assessed), null, 1) : assessReport(assessed);
    process.stdout.write(`${output}\n`);
  });

/**
 * Judges the file that the words of a command line name.
 *
 * @throws InputError when the words do not fit or a file cannot be read.
 */
export function assessWords(args: readonly string[]): {
  readonly assessed: AssessedFile;
  readonly isJson: boolean;
} {
  const words = commandLine(
    args,
    {
      phrase: { type: 'string' },
      layer: { type: 'string' },
      tempo: { type: 'string' },
      'count-in': { type: 'string' },
      tolerance: { type: 'string' },
      reach: { type: 'string' },
      kit: { type: 'string' },
      json: { type: 'boolean' },
    },
    USAGE,
  );
  const phrasePath = words.text('phrase');
  const [takePath, ...others] = words.files;
  if (takePath === undefined || others.length > 0 || phrasePath === undefined)
    throw new InputError(`command line: expected one take and --phrase. Usage: ${USAGE}`);
  const kitPath = words.text('kit');
  if ([takePath, phrasePath, kitPath].filter((path) => path === STANDARD_INPUT).length > 1)
    throw new InputError('command line: expected - once only, standard input can be read once.');
  const tempoBpm = words.number('tempo', TEMPO);
  const countInBars = words.whole('count-in', { from: 0, to: 64 }) ?? 0;
  const toleranceMs = words.number('tolerance', WINDOW_MS);
  const reachMs = words.number('reach', WINDOW_MS);
  const phrase = readPhrase(phrasePath);
  const layers = phrase.layers.length;
  const layer = words.whole('layer', { from: 1, to: layers }) ?? layers;
  const assessed = assessFile({
    takeName: inputName(takePath),
    file: readMidi(takePath),
    phrase,
    layer,
    countInBars,
    tempoBpm,
    windows: { toleranceMs, reachMs },
    kit: kitPath === undefined ? undefined : readKit(kitPath),
  });
  return { assessed, isJson: words.flag('json') };
}
