import { basename, extname } from 'node:path';
import { capture, takeInFile, writePhrase, type CaptureReport } from '../index';
import { CAPTURE_HELP } from './help';
import { InputError, runCommand } from './input-error';
import { commandLine, TEMPO } from './options';
import { inputName, readMidi, STANDARD_INPUT } from './read-input';
import { writeOutput } from './write-output';

const USAGE = 'capture TAKE.mid [--tempo BPM] [--count-in BARS] [-o PHRASE.json] [--force]';

/** The file name that means standard output, to -o. */
const STANDARD_OUTPUT = '-';

/** What was captured, from which file, and the file that it is meant for, if any. */
export interface FileCapture {
  readonly report: CaptureReport;
  readonly input: string;
  readonly output: string | undefined;
  /** Whether another file there may be written over. */
  readonly force: boolean;
}

/** Writes the phrase and says how sure it is of it: both on the way the words of the command line say. */
export const main = (args: readonly string[]): Promise<void> =>
  runCommand(args, { usage: USAGE, help: CAPTURE_HELP }, () => {
    const { report, input, output, force } = captureFile(args);
    const phrase = writePhrase(report.phrase);
    const sentences = `${captureWords(report)}\n`;
    if (output === undefined || output === STANDARD_OUTPUT) {
      process.stdout.write(phrase);
      process.stderr.write(sentences);
    } else {
      writeOutput(output, phrase, { input, force });
      process.stdout.write(sentences);
    }
  });

/**
 * Captures the file that the words of a command line name; the phrase has the file's name.
 *
 * @throws InputError when the words do not fit, the file cannot be read or nothing can be written down.
 */
export function captureFile(args: readonly string[]): FileCapture {
  const words = commandLine(
    args,
    {
      tempo: { type: 'string' },
      'count-in': { type: 'string' },
      output: { type: 'string', short: 'o' },
      force: { type: 'boolean' },
    },
    USAGE,
  );
  const path = words.onlyFile('take');
  const tempoBpm = words.number('tempo', TEMPO);
  const countInBars = words.whole('count-in', { from: 0, to: 64 });
  const take = takeInFile(readMidi(path), { tempoBpm, countInBars });
  if (!take.ok) throw new InputError(`${inputName(path)}: ${take.errors[0]!.message}`);
  const report = capture(take.value);
  if (!report.ok) throw new InputError(`${inputName(path)}: ${report.errors[0]!.message}`);
  const name = path === STANDARD_INPUT ? '' : basename(path, extname(path));
  const phrase = { ...report.value.phrase, title: name || report.value.phrase.title };
  return {
    report: { ...report.value, phrase },
    input: path,
    output: words.text('output'),
    force: words.flag('force'),
  };
}

const captureWords = ({ findings }: CaptureReport): string =>
  findings
    .map(({ sentence, confidence }) => `${sentence} (sure: ${Math.floor(confidence * 100)} %)`)
    .join('\n');
