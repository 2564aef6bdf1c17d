import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { runPiped } from './cli/run-command';

const readme = readFileSync('README.md', 'utf8');

/** The blocks of code, their indent taken off. */
const blocks = [...readme.matchAll(/(?<=\n\n)(?: {4}.*\n|\n(?= {4}))+/g)].map(([text]) =>
  text.replace(/^ {4}/gm, '').trimEnd(),
);
const EXAMPLE = 'shared/examples/slack-tide';

describe('the README', () => {
  it('shows the phrase file as it lies there', () => {
    expect(blocks).toContain(readFileSync(`${EXAMPLE}.json`, 'utf8').trimEnd());
  });

  it('shows what the command prints', () => {
    const at = blocks.findIndex((block) => block.includes('assess -- '));
    const [command = '', reader = ''] = blocks[at]!.split(' | ');
    const [, , , name = '', , ...args] = command.split(' ');
    expect(runPiped(reader, name, ...args).stdout.trimEnd()).toBe(blocks[at + 1]);
  });

  it('is short: 700 words at most', () => {
    expect(readme.trim().split(/\s+/).length).toBeLessThanOrEqual(700);
  });

  it('links to and shows only files that are there', () => {
    const files = [...readme.matchAll(/(?:\]\(|src(?:set)?=")(?!https?:)([^)"]+)/g)].map(
      ([, file]) => file!,
    );
    expect(files.length).toBeGreaterThan(3);
    expect(files.filter((file) => !existsSync(file))).toEqual([]);
  });
});
