import {
  MAX_REACH_US,
  type Comparison,
  type Kit,
  type Phrase,
  type WindowSettings,
  writeKit,
  writePhrase,
} from '../index';
import { assessFile, assessTake, type AssessedFile } from './assess-input';
import { assessJson } from './assess-json';
import { assessReport } from './assess-report';
import { assessSince } from './assess-since';
import { ASSESS_HELP } from './help';
import { InputError, runCommand } from './input-error';
import { judgeTakes } from './many/judge-takes';
import { progressLine } from './many/progress-line';
import { isFolder, takePaths } from './many/take-paths';
import { takesCsv, takesJson, takesReport, takesText } from './many/takes-report';
import { commandLine, TEMPO, type CommandLine } from './options';
import {
  inputName,
  readKit,
  readPhrase,
  readRecording,
  STANDARD_INPUT,
  type Recording,
} from './read-input';

const USAGE =
  'assess TAKE.mid|TAKE.json|FOLDER... [--phrase PHRASE.json] [--layer N] [--tempo BPM] [--count-in BARS] [--tolerance MS] [--reach MS] [--kit KIT.json] [--since EARLIER] [--csv|--json]';
/** A stroke that no tolerance can hold is none: a millisecond is what a kit's messages are true to. */
const WINDOW_MS = { from: 1, to: MAX_REACH_US / 1000 };
/** Before the phrase is known. */
const MOST_LAYERS = 1000;

/** The exit code where some takes could not be read, and the others were judged. */
const SOME_UNREAD = 1;
/** What a take of the app's says itself. */
const SAID_BY_TAKE = ['phrase', 'layer', 'tempo', 'count-in'];

/** Prints how well a recorded take answers a phrase. */
export const main = (args: readonly string[]): Promise<void> =>
  runCommand(args, { usage: USAGE, help: ASSESS_HELP }, async () => {
    const words = assessLine(args);
    if (words.files.length > 1 || words.flag('csv') || words.files.some(isFolder))
      return assessMany(words);
    const { assessed, since, isJson } = assessWords(args);
    const output = isJson
      ? JSON.stringify(assessJson(assessed, since), null, 1)
      : assessReport(assessed, since);
    process.stdout.write(`${output}\n`);
  });

const assessLine = (args: readonly string[]): CommandLine =>
  commandLine(
    args,
    {
      phrase: { type: 'string' },
      layer: { type: 'string' },
      tempo: { type: 'string' },
      'count-in': { type: 'string' },
      tolerance: { type: 'string' },
      reach: { type: 'string' },
      kit: { type: 'string' },
      since: { type: 'string' },
      csv: { type: 'boolean' },
      json: { type: 'boolean' },
    },
    USAGE,
  );

const numbersIn = (words: CommandLine) => ({
  tempoBpm: words.number('tempo', TEMPO),
  countInBars: words.whole('count-in', { from: 0, to: 64 }),
  windows: {
    toleranceMs: words.number('tolerance', WINDOW_MS),
    reachMs: words.number('reach', WINDOW_MS),
  },
});

/** Judges every take that the words name, and prints a row each. @throws InputError when none can be judged. */
async function assessMany(words: CommandLine): Promise<void> {
  const phrasePath = words.text('phrase');
  const kitPath = words.text('kit');
  if (words.flag('csv') && words.flag('json'))
    throw new InputError(`command line: --csv and --json: expected one of them. Usage: ${USAGE}`);
  if (words.text('since') !== undefined)
    throw new InputError('command line: --since: expected one take to compare with it.');
  if (words.files.includes(STANDARD_INPUT))
    throw new InputError(
      'command line: -: expected files and folders, standard input is one take.',
    );
  const paths = takePaths(words.files, [phrasePath, kitPath]);
  const midi = paths.find((path) => !path.toLowerCase().endsWith('.json'));
  if (paths.length === 0 || (phrasePath === undefined && midi !== undefined))
    throw new InputError(
      `command line: ${midi ?? 'assess'}: expected takes, and --phrase for MIDI files. Usage: ${USAGE}`,
    );
  const phrase = phrasePath === undefined ? undefined : readPhrase(phrasePath);
  const kit = kitPath === undefined ? undefined : readKit(kitPath);
  const settings = {
    ...numbersIn(words),
    phraseText: phrase && writePhrase(phrase),
    kitText: kit && writeKit(kit),
    layer: words.whole('layer', { from: 1, to: phrase?.layers.length ?? MOST_LAYERS }),
  };
  const answers = await judgeTakes(paths, settings, progressLine('takes'));
  const report = takesReport(paths, answers);
  const [first] = report.unread;
  if (first && report.rows.length === 0)
    throw new InputError(`${first.why} None of ${paths.length} takes could be judged.`);
  const output = words.flag('json')
    ? `${JSON.stringify(takesJson(report), null, 1)}\n`
    : words.flag('csv')
      ? takesCsv(report)
      : `${takesText(report)}\n`;
  process.stdout.write(output);
  if (first) process.exitCode = SOME_UNREAD;
}

/**
 * Judges the file that the words of a command line name.
 *
 * @throws InputError when the words do not fit or a file cannot be read.
 */
export function assessWords(args: readonly string[]): {
  readonly assessed: AssessedFile;
  /** What has changed since the take that --since names; undefined without it. */
  readonly since: readonly Comparison[] | undefined;
  readonly isJson: boolean;
} {
  const words = assessLine(args);
  const phrasePath = words.text('phrase');
  const kitPath = words.text('kit');
  const sincePath = words.text('since');
  const [takePath, ...others] = words.files;
  const expectedPhrase = `command line: expected one take and --phrase. Usage: ${USAGE}`;
  const isComplete =
    phrasePath !== undefined || takePath === STANDARD_INPUT || takePath?.endsWith('.json');
  if (takePath === undefined || others.length > 0 || !isComplete)
    throw new InputError(expectedPhrase);
  if (
    [takePath, phrasePath, kitPath, sincePath].filter((path) => path === STANDARD_INPUT).length > 1
  )
    throw new InputError('command line: expected - once only, standard input can be read once.');
  const { tempoBpm, countInBars, windows } = numbersIn(words);
  const phrase = phrasePath === undefined ? undefined : readPhrase(phrasePath);
  const layers = phrase?.layers.length;
  const layer = words.whole('layer', { from: 1, to: layers ?? MOST_LAYERS });
  const recording = readRecording(takePath);
  const earlier = sincePath === undefined ? undefined : readRecording(sincePath);
  const kit = kitPath === undefined ? undefined : readKit(kitPath);
  const isJson = words.flag('json');
  const said = SAID_BY_TAKE.find((name) => words.text(name) !== undefined);
  const isTake = [recording, earlier].every((one) => one === undefined || 'take' in one);
  if (isTake && said !== undefined)
    throw new InputError(
      `command line: --${said}: ${inputName(takePath)} is a take of the app's, which says that itself; leave it out.`,
    );
  if (!isTake && !phrase) throw new InputError(expectedPhrase);
  const how = { phrase, layer, countInBars, tempoBpm, windows, kit };
  const assessed = assessRecording(inputName(takePath), recording, how);
  const since =
    sincePath === undefined || !earlier
      ? undefined
      : assessSince(
          { recording, assessed },
          { recording: earlier, assessed: assessRecording(inputName(sincePath), earlier, how) },
          inputName(sincePath),
        );
  return { assessed, since, isJson };
}

/** What the options say of a file that does not say it itself. */
interface HowPlayed {
  readonly phrase: Phrase | undefined;
  readonly layer: number | undefined;
  readonly countInBars: number | undefined;
  readonly tempoBpm: number | undefined;
  readonly windows: WindowSettings;
  readonly kit: Kit | undefined;
}

function assessRecording(
  takeName: string,
  recording: Recording,
  { phrase, ...how }: HowPlayed,
): AssessedFile {
  if ('take' in recording) return assessTake({ takeName, take: recording.take, ...how });
  return assessFile({
    takeName,
    file: recording.midi,
    phrase: phrase!,
    ...how,
  });
}
