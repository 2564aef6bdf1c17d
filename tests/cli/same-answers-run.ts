import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { bothAnswers } from './same-answers';

const USUAL = 2000;
const tell = (line: string) => process.stdout.write(`${line}\n`);

/** Compares as many captures as are asked, half with a click, and prints those on which app and command line differ. */
export function main(args: readonly string[]): void {
  const [count = String(USUAL), seed = '1'] = args;
  if (!(Number(count) > 0 && Number.isInteger(Number(seed)))) {
    process.stderr.write(
      `${args.join(' ')}: expected [captures, above 0] [whole seed], as "200 7"\n`,
    );
    process.exitCode = 2;
    return;
  }
  const folder = mkdtempSync(join(tmpdir(), 'answers-'));
  let compared = 0;
  let differ = 0;
  for (const { about, app, cli } of bothAnswers(
    Math.ceil(Number(count) / 2),
    folder,
    Number(seed),
  )) {
    compared++;
    if (isDeepStrictEqual(app, cli)) continue;
    differ++;
    tell(`${about}: ${JSON.stringify(app).slice(0, 200)} | ${JSON.stringify(cli).slice(0, 200)}`);
  }
  rmSync(folder, { recursive: true });
  tell(`${differ} of ${compared} answers differ.`);
  if (differ > 0) process.exitCode = 1;
}
