import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { runRedirected } from './cli/run-command';

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
    expect(runRedirected(`| ${reader}`, name, ...args).stdout.trimEnd()).toBe(blocks[at + 1]);
  });

  it('names commands that there are', () => {
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: object };
    const commands = [...readme.matchAll(/npm (?:run (?:-s )?)?([a-z]+)(?= |$|`)/gm)].map(
      ([, name]) => name,
    );
    expect(commands).toEqual(expect.arrayContaining(['start', 'test', 'assess', 'capture']));
    expect(commands.filter((name) => !Object.keys(scripts).includes(name!))).toEqual([]);
  });

  it.each([
    ['README.md', 700],
    ['DEVELOPERS.md', 1500],
  ])('is short, as %s: %i words at most', (file, most) => {
    expect(readFileSync(file, 'utf8').trim().split(/\s+/).length).toBeLessThanOrEqual(most);
  });

  it('of developers names only files that are there', () => {
    const names = [
      ...readFileSync('DEVELOPERS.md', 'utf8').matchAll(
        /`([a-z./-]+\.(?:svelte\.)?(?:ts|mjs|cjs))`/g,
      ),
    ].map(([, name]) => name!);
    const files = readdirSync('.', { recursive: true, encoding: 'utf8' }).filter(
      (file) => !/^(node_modules|dist|\.git)\//.test(file),
    );
    expect(names.length).toBeGreaterThan(20);
    expect(names.filter((name) => !files.some((file) => `/${file}`.endsWith(`/${name}`)))).toEqual(
      [],
    );
  });

  it('links to and shows only files that are there', () => {
    const files = [...readme.matchAll(/(?:\]\(|src(?:set)?=")(?!https?:)([^)"]+)/g)].map(
      ([, file]) => file!,
    );
    expect(files.length).toBeGreaterThan(3);
    expect(files.filter((file) => !existsSync(file))).toEqual([]);
  });
});
