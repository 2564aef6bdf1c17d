import { describe, expect, it } from 'vitest';
import { assessWords } from '../../src/cli/assess';
import { assessJson } from '../../src/cli/assess-json';
import { ASSESS_HELP } from '../../src/cli/help';
import { answerOf } from './run-command';

describe('--help', () => {
  it.each(['assess', 'expand', 'capture', 'convert', 'sheet'] as const)(
    'of %s prints the usage and every option',
    async (name) => {
      const { status, stdout, stderr } = await answerOf(name, 'no-such-file', '--help');
      expect(await answerOf(name, '-h')).toEqual({ status, stdout, stderr });
      const [usage = '', ...rest] = stdout.split('\n');
      expect([status, stderr]).toEqual([0, '']);
      expect(usage.startsWith(`npm run -s ${name} -- `)).toBe(true);
      const options = usage.match(/(?<=\[|\s)--?[a-z-]+(?=[ \]])/g)!.slice(1);
      expect(options.length).toBeGreaterThan(1);
      const described = rest.map((line) => /^ {2}(--?[a-z-]+)/.exec(line)?.[1]);
      for (const option of options.filter((one) => one !== '--phrase' && one !== '--'))
        expect(described).toContain(option);
    },
  );

  it('names every key of the JSON of assess', () => {
    const example = 'shared/examples/slack-tide';
    const { assessed } = assessWords([`${example}.mid`, '--phrase', `${example}.json`]);
    const json = assessJson(assessed);
    const keys = [...Object.keys(json), ...Object.keys(json.notes[0]!)];
    expect(keys.filter((key) => !new RegExp(`\\b${key}\\b`).test(ASSESS_HELP))).toEqual([]);
  });
});

describe('a command that measures', () => {
  it.each([
    ['answers', '--help'],
    ['answers', '0'],
    ['claims', '--help'],
    ['fuzz', '--help'],
    ['fuzz', '0.01', '7', '60', 'midis'],
  ] as const)(
    '%s says what it expects in place of %s, and measures nothing',
    async (name, ...words) => {
      const { status, stdout, stderr } = await answerOf(name, ...words);
      expect([status, stdout]).toEqual([2, '']);
      expect(stderr).toMatch(/^[^:]+: expected \[.+, as ".+"\n$/);
      expect(stderr.startsWith(`${words.join(' ')}: `)).toBe(true);
    },
  );
});
