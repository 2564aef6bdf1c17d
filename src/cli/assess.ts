import { MAX_REACH_US } from '../index';
import { assessFile, assessTake, type AssessedFile } from './assess-input';
import { assessJson } from './assess-json';
import { assessReport } from './assess-report';
import { ASSESS_HELP } from './help';
import { InputError, runCommand } from './input-error';
import { commandLine, TEMPO } from './options';
import { inputName, readKit, readPhrase, readRecording, STANDARD_INPUT } from './read-input';

const USAGE =
  'assess TAKE.mid --phrase PHRASE.json | TAKE.json [--layer N] [--tempo BPM] [--count-in BARS] [--tolerance MS] [--reach MS] [--kit KIT.json] [--json]';
/** A stroke that no tolerance can hold is none: a millisecond is what a kit's messages are true to. */
const WINDOW_MS = { from: 1, to: MAX_REACH_US / 1000 };
/** Before the phrase is known. */
const MOST_LAYERS = 1000;

/** What a take of the app's says itself. */
const SAID_BY_TAKE = ['phrase', 'layer', 'tempo', 'count-in'];

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
  const kitPath = words.text('kit');
  const [takePath, ...others] = words.files;
  const expectedPhrase = `command line: expected one take and --phrase. Usage: ${USAGE}`;
  const isComplete =
    phrasePath !== undefined || takePath === STANDARD_INPUT || takePath?.endsWith('.json');
  if (takePath === undefined || others.length > 0 || !isComplete)
    throw new InputError(expectedPhrase);
  if ([takePath, phrasePath, kitPath].filter((path) => path === STANDARD_INPUT).length > 1)
    throw new InputError('command line: expected - once only, standard input can be read once.');
  const tempoBpm = words.number('tempo', TEMPO);
  const countInBars = words.whole('count-in', { from: 0, to: 64 });
  const windows = {
    toleranceMs: words.number('tolerance', WINDOW_MS),
    reachMs: words.number('reach', WINDOW_MS),
  };
  const phrase = phrasePath === undefined ? undefined : readPhrase(phrasePath);
  const layers = phrase?.layers.length;
  const layer = words.whole('layer', { from: 1, to: layers ?? MOST_LAYERS });
  const takeName = inputName(takePath);
  const recording = readRecording(takePath);
  const kit = kitPath === undefined ? undefined : readKit(kitPath);
  const isJson = words.flag('json');
  if ('take' in recording) {
    const said = SAID_BY_TAKE.find((name) => words.text(name) !== undefined);
    if (said !== undefined)
      throw new InputError(
        `command line: --${said}: ${takeName} is a take of the app's, which says that itself; leave it out.`,
      );
    return { assessed: assessTake({ takeName, take: recording.take, windows, kit }), isJson };
  }
  if (!phrase) throw new InputError(expectedPhrase);
  const assessed = assessFile({
    takeName,
    file: recording.midi,
    phrase,
    layer,
    countInBars,
    tempoBpm,
    windows,
    kit,
  });
  return { assessed, isJson };
}
