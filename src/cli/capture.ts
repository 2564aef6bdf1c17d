import { writeFileSync } from 'node:fs';
import { basename, extname } from 'node:path';
import { capture, takeInFile, writePhrase, type CaptureReport } from '../index';
import { CAPTURE_HELP } from './help';
import { InputError, runCommand } from './input-error';
import { commandLine, TEMPO } from './options';
import { readMidi } from './read-input';

const USAGE = 'capture TAKE.mid [--tempo BPM] [--count-in BARS] [-o PHRASE.json]';

/** What was captured, and the file that it is meant for, if any. */
export interface FileCapture {
  readonly report: CaptureReport;
  readonly output: string | undefined;
}

/** Writes the phrase and says how sure it is of it: both on the way the words of the command line say. */
export const main = (args: readonly string[]): Promise<void> =>
  runCommand(args, { usage: USAGE, help: CAPTURE_HELP }, () => {
    const { report, output } = captureFile(args);
    const phrase = writePhrase(report.phrase);
    const sentences = `${captureWords(report)}\n`;
    if (output === undefined) {
      process.stdout.write(phrase);
      process.stderr.write(sentences);
    } else {
      write(output, phrase);
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
    },
    USAGE,
  );
  const path = words.onlyFile('take');
  const tempoBpm = words.number('tempo', TEMPO);
  const countInBars = words.whole('count-in', { from: 0, to: 64 });
  const take = takeInFile(readMidi(path), { tempoBpm, countInBars });
  if (!take.ok) throw new InputError(`${path}: ${take.errors[0]!.message}`);
  const report = capture(take.value);
  if (!report.ok) throw new InputError(`${path}: ${report.errors[0]!.message}`);
  const title = basename(path, extname(path)) || report.value.phrase.title;
  const phrase = { ...report.value.phrase, title };
  return { report: { ...report.value, phrase }, output: words.text('output') };
}

const captureWords = ({ findings }: CaptureReport): string =>
  findings
    .map(({ sentence, confidence }) => `${sentence} (sure: ${Math.floor(confidence * 100)} %)`)
    .join('\n');

function write(path: string, text: string): void {
  try {
    writeFileSync(path, text);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new InputError(`${path}: the phrase cannot be written there (${code}).`);
  }
}
