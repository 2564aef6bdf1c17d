import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { answerOf, runRedirected } from './run-command';

const PHRASE = 'shared/phrases/quay-steps.json';
const folder = mkdtempSync(join(tmpdir(), 'sheets-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const count = (text: string, pattern: RegExp): number => text.match(pattern)?.length ?? 0;

async function sheet(name: string, ...args: readonly string[]): Promise<string> {
  const path = join(folder, name);
  expect(await answerOf('sheet', PHRASE, '-o', path, ...args)).toEqual({
    status: 0,
    stdout: '',
    stderr: '',
  });
  return readFileSync(path, 'utf8');
}

/** Elements that are open, in order; every end must fit the last of them. */
function isWellFormed(xml: string): boolean {
  const open: string[] = [];
  for (const [, end, name, rest] of xml.matchAll(/<(\/?)([a-zA-Z]+)([^>]*)>/g)) {
    if (end === '/' && open.pop() !== name) return false;
    if (end === '' && !rest!.endsWith('/')) open.push(name!);
  }
  return open.length === 0;
}

describe('sheet', () => {
  it('is one layer, the last, as outlines and letters with their faces', async () => {
    const svg = await sheet('last.svg');
    expect(isWellFormed(svg)).toBe(true);
    expect(svg).toContain('5 Ghosts');
    expect(svg).not.toContain('4 Pickup');
    expect(svg).not.toMatch(/<script|<image|xlink|url\((?!data:font\/woff2;)|[\uE000-\uF8FF]/);
    expect(count(svg, /@font-face/g)).toBe(2);
    // 5 bars of 16 counts, and the beat with the pickup in it.
    expect(count(svg, /<text class="(?:count|beat)"/g)).toBe(84);
    expect(svg).not.toContain('class="new" x');
  });

  it('is all layers, each marked where it changes something', async () => {
    const svg = await sheet('all.svg', '--layer', 'all', '--letter', '--stand');
    for (const name of ['1 Sticking', '2 Accents', '3 Toms', '4 Pickup', '5 Ghosts'])
      expect(svg).toContain(name);
    expect(count(svg, /<rect class="new"/g)).toBeGreaterThan(20);
    const [head, ...layers] = svg.split(/\d [A-Z]\w+<\/text>/);
    expect(head).toContain('Underlined: what each layer adds or changes.');
    expect(layers).toHaveLength(5);
  });

  it('has as many bars as it is asked for, with letters or without', async () => {
    const svg = await sheet(
      'two.svg',
      '--layer',
      '1',
      '--bars',
      '2',
      '--no-sticking',
      '--no-counts',
    );
    expect(count(svg, /class="measure"/g)).toBe(2);
    expect(svg).not.toMatch(/class="(?:sticking|count|beat)"/);
  });

  it('a title with markup stays text', async () => {
    const phrase = join(folder, 'markup.json');
    const text = readFileSync(PHRASE, 'utf8').replace('Quay Steps', '<script>R & L</script>');
    writeFileSync(phrase, text);
    const out = join(folder, 'markup.svg');
    expect((await answerOf('sheet', phrase, '-o', out, '--bars', '1')).status).toBe(0);
    const svg = readFileSync(out, 'utf8');
    expect(svg).toContain('&lt;script&gt;R &amp; L&lt;/script&gt;');
    expect(isWellFormed(svg)).toBe(true);
  });

  it('reads standard input', () => {
    const out = join(folder, 'piped.svg');
    const { status, stderr } = runRedirected(`< ${PHRASE}`, 'sheet', '-', '-o', out, '--bars', '1');
    expect([status, stderr]).toEqual([0, '']);
    expect(existsSync(out)).toBe(true);
  });

  it.each([
    ['no name for it', [PHRASE], /expected -o OUT\.svg/],
    [
      'another ending',
      [PHRASE, '-o', 'sheet.pdf'],
      /^sheet\.pdf: expected a name that ends in \.svg/,
    ],
    ['a layer that is not there', [PHRASE, '-o', 'x.svg', '--layer', '6'], /from 1 to 5/],
    ['more bars than are written', [PHRASE, '-o', 'x.svg', '--bars', '65'], /from 1 to 64/],
    ['no bar', [PHRASE, '-o', 'x.svg', '--bars', '0'], /from 1 to 64/],
    ['no layer', [PHRASE, '-o', 'x.svg', '--layer', 'every'], /from 1 to 5/],
    ['no phrase', ['package.json', '-o', 'x.svg'], /^package\.json: /],
    ['the phrase itself', [PHRASE, '-o', PHRASE], /ends in \.svg/],
  ])('%s: one line, nothing written', async (_, args, told) => {
    const { status, stdout, stderr } = await answerOf('sheet', ...args);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(told);
    expect(stderr.trimEnd()).not.toContain('\n');
    expect(existsSync('x.svg')).toBe(false);
  });

  it('writes over nothing unless it is told to', async () => {
    const path = join(folder, 'there.svg');
    writeFileSync(path, 'mine');
    const { status, stderr } = await answerOf('sheet', PHRASE, '-o', path);
    expect([status, readFileSync(path, 'utf8')]).toEqual([2, 'mine']);
    expect(stderr).toContain('--force');
    await sheet('there.svg', '--force', '--bars', '1');
  });
});
