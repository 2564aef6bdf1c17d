import { writeFileSync } from 'node:fs';
import { basename, extname } from 'node:path';
import { capture, type Captured } from '../capture/capture';
import { decompose } from '../phrase/decompose/decompose';
import { TEMPO_BPM } from '../phrase/model/phrase-file';
import { writePhrase } from '../phrase/file/write-phrase';
import { heardIn } from './capture-input';
import { InputError, runCommand } from './input-error';
import { commandLine } from './options';
import { readMidi } from './read-input';

const USAGE = 'capture TAKE.mid [--tempo BPM] [--count-in BARS] [-o PHRASE.json]';

await runCommand(() => {
  const words = commandLine(
    process.argv.slice(2),
    {
      tempo: { type: 'string' },
      'count-in': { type: 'string' },
      output: { type: 'string', short: 'o' },
    },
    USAGE,
  );
  const [takePath, ...others] = words.files;
  if (takePath === undefined || others.length > 0)
    throw new InputError(`command line: expected one take. Usage: ${USAGE}`);
  const tempoBpm = words.number('tempo', TEMPO_BPM.least, TEMPO_BPM.most);
  const countInBars = words.whole('count-in', 0, 64);
  const heard = heardIn({ takePath, file: readMidi(takePath), tempoBpm, countInBars });
  const captured = capture(heard.strokes, heard);
  if (!captured.ok) throw new InputError(`${takePath}: ${captured.errors[0]!.message}`);
  if (captured.value.pattern.notes.length === 0)
    throw new InputError(
      `${takePath}: No stroke came again in half of the rounds or more; play the phrase several times round.`,
    );
  const phrase = decompose(captured.value.pattern, titleOf(takePath));
  if (!phrase.ok) throw new InputError(`${takePath}: ${phrase.errors[0]!.message}`);

  const output = words.text('output');
  const text = writePhrase(phrase.value);
  const report = `${captureReport(captured.value)}\n`;
  if (output === undefined) {
    process.stdout.write(text);
    process.stderr.write(report);
  } else {
    write(output, text);
    process.stdout.write(report);
  }
});

function captureReport({ findings }: Captured): string {
  return findings
    .map(({ sentence, confidence }) => `${sentence} (sure: ${Math.floor(confidence * 100)} %)`)
    .join('\n');
}

function titleOf(path: string): string {
  return basename(path, extname(path)) || 'Captured';
}

function write(path: string, text: string): void {
  try {
    writeFileSync(path, text);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new InputError(`${path}: the phrase cannot be written there (${code}).`);
  }
}
