import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { answerOf, runCommand, runRedirected } from './run-command';

const TAKE = 'shared/examples/slack-tide.mid';
const PHRASE = 'shared/examples/slack-tide.json';

describe('standard input, named -', () => {
  it('is the take', async () => {
    const words = ['--phrase', PHRASE, '--json'];
    const told = runRedirected(`< ${TAKE}`, 'assess', '-', ...words);
    expect(told).toEqual(await answerOf('assess', TAKE, ...words));
  });

  it('is the phrase', async () => {
    const told = runRedirected(`< ${PHRASE}`, 'expand', '-', '--bars', '1');
    expect(told).toEqual(await answerOf('expand', PHRASE, '--bars', '1'));
  });

  it('is never written over either', () => {
    const folder = mkdtempSync(join(tmpdir(), 'redirected-'));
    const own = join(folder, 'own.mid');
    copyFileSync('shared/takes/take-08.mid', own);
    expect(runRedirected(`< ${own}`, 'capture', '-', '-o', own, '--force')).toEqual({
      status: 2,
      stdout: '',
      stderr: `${own}: this is the file that was read; give another name to -o.\n`,
    });
    expect(readFileSync(own)).toEqual(readFileSync('shared/takes/take-08.mid'));
    rmSync(folder, { recursive: true });
  });

  it('is called so in the one line about it', () => {
    expect(runRedirected('< package.json', 'capture', '-')).toMatchObject({
      status: 2,
      stdout: '',
      stderr: expect.stringMatching(/^standard input: [^\n]+\n$/),
    });
  });
});

describe('an output that takes no more', () => {
  it('as a full disk, is one line and exit code 2', () => {
    expect(runRedirected('> /dev/full', 'expand', PHRASE)).toEqual({
      status: 2,
      stdout: '',
      stderr: 'standard output: it takes no more (ENOSPC).\n',
    });
  });

  it('as a closed pipe, is no fault', () => {
    const { stdout, stderr } = runRedirected('| head -c 10', 'expand', PHRASE, '--bars', '10000');
    expect([stdout.length, stderr]).toEqual([10, '']);
  });
});

describe('a command that there is not', () => {
  it.each(['louder', '__proto__', ''])('as "%s", is one line and exit code 2', (name) => {
    const { status, stdout, stderr } = runCommand(name);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^"[a-z_]*" is not one of assess, expand, [^\n]+\n$/);
  });
});
