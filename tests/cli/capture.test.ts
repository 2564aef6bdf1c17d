import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { answerOf, runCommand } from './run-command';

const folder = mkdtempSync(join(tmpdir(), 'capture-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('capture', () => {
  it('writes a phrase that reads again, and says what it found and how sure it is', () => {
    const output = join(folder, 'baiao.json');
    const { status, stdout, stderr } = runCommand(
      'capture',
      'shared/takes/take-08.mid',
      '--tempo',
      '95',
      '-o',
      output,
    );
    expect([status, stderr]).toEqual([0, '']);
    expect(parsePhrase(readFileSync(output, 'utf8')).ok).toBe(true);
    expect(stdout).toContain('The tempo: 95 beats a minute.');
  });

  it('writes over a file with --force, and leaves nothing else behind', async () => {
    const output = join(folder, 'there.json');
    writeFileSync(output, 'older');
    const words = ['shared/takes/take-08.mid', '-o', output];
    expect(await answerOf('capture', ...words)).toMatchObject({ status: 2, stdout: '' });
    expect(readFileSync(output, 'utf8')).toBe('older');
    expect((await answerOf('capture', ...words, '--force')).status).toBe(0);
    expect(parsePhrase(readFileSync(output, 'utf8')).ok).toBe(true);
    expect(readdirSync(folder).filter((name) => name.includes('there'))).toEqual(['there.json']);
  });

  it.each(['-', '/dev/null'])('takes -o %s, which holds nothing to write over', async (output) => {
    const { status } = await answerOf('capture', 'shared/takes/take-08.mid', '-o', output);
    expect(status).toBe(0);
  });

  it('prints the phrase alone without -o', async () => {
    const { status, stdout } = await answerOf('capture', 'shared/takes/take-08.mid');
    expect(status).toBe(0);
    expect(parsePhrase(stdout).ok).toBe(true);
  });

  it.each([
    ['take-01', '116'],
    ['take-05', '84'],
  ])('tells the tempo of %s as the table does, not as microseconds come out', async (name, bpm) => {
    const { stdout, stderr } = await answerOf('capture', `shared/takes/${name}.mid`);
    expect(stderr).toContain(`The tempo: ${bpm} beats a minute.`);
    expect(stdout).toContain(`"tempoBpm": ${bpm},`);
  });

  it('says so when nothing was played twice', async () => {
    const { status, stdout, stderr } = await answerOf('capture', 'shared/takes/take-10.mid');
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^shared\/takes\/take-10\.mid: No stroke came again .+\n$/);
  });

  it('answers wrong input with one line and exit code 2, and writes nothing', async () => {
    const { status, stdout, stderr } = await answerOf('capture', 'package.json');
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^package\.json: .+\n$/);
    expect((await answerOf('capture')).status).toBe(2);
  });
});
