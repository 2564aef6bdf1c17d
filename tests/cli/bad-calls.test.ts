import {
  chmodSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { writeMidiFile } from '../../src/take/write-midi-file';
import { beats } from '../../src/time/beats';
import { parseMeter } from '../../src/time/meter';
import { answerOf } from './run-command';

const TAKE = 'shared/examples/slack-tide.mid';
const PHRASE = 'shared/examples/slack-tide.json';

const folder = mkdtempSync(join(tmpdir(), 'bad-calls-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const take = readFileSync(TAKE);
const phrase = readFileSync(PHRASE, 'utf8');
const EMPTY = file('empty', '');
const CUT = file('cut.json', phrase.slice(0, 200));
const LIST = file('list.json', '[]');
const NULL = file('null.json', 'null');
const UNKNOWN_METER = file('meter.json', phrase.replace('4/4', '4/0'));
const UNKNOWN_KEY = file('key.json', phrase.replace('"tempoBpm"', '"tempo"'));
const SELECTOR_LIST = file('every.json', phrase.replace('{ "limb": "R" }', '{ "every": [] }'));
// ISO 8859-1: no UTF-8, and it stands in line 2.
const LATIN = file('latin.json', Buffer.from(phrase.replace('Slack Tide', 'Säge'), 'latin1'));
const WIDE = file('wide.json', Buffer.from(`\uFEFF${phrase}`, 'utf16le'));
const LATIN_KIT = file('latin-kit.json', Buffer.from('{ "title": "Säge" }', 'latin1'));
const CUT_TAKE = file('cut.mid', take.subarray(0, 40));
const BEHEADED_TAKE = file('beheaded.mid', take.subarray(14));
const FORMAT_2 = file(
  'format-2.mid',
  Uint8Array.from(take, (byte, i) => (i === 9 ? 2 : byte)),
);
// A stroke after 20 hours, 1,440,000 sixteenths at 300.
const LATE_TAKE = file(
  'late.mid',
  writeMidiFile({
    messages: [{ timeUs: 72e9, status: 0x99, data1: 38, data2: 64 }],
    tempos: [{ fromBeat: beats(0), bpm: 300 }],
    meter: parseMeter('4/4')!,
    countInBars: 0,
  }),
);
const BLANK_KIT = file('kit.json', '{}');
const INSIDE = join(EMPTY, 'inside');
mkdirSync(join(folder, 'sub'));
symlinkSync('loop', join(folder, 'loop'));
const LOOP = join(folder, 'loop');
const OWN = file('own.mid', readFileSync('shared/takes/take-08.mid'));
const LINKED = join(folder, 'linked.mid');
linkSync(OWN, LINKED);
const POINTED = join(folder, 'pointed.mid');
symlinkSync(OWN, POINTED);
const THERE = file('there.json', 'mine');
chmodSync(THERE, 0o644);

const assess = (...more: string[]) => ['assess', TAKE, '--phrase', PHRASE, ...more] as const;
const onPhrase = (path: string) => ['assess', TAKE, '--phrase', path] as const;
const onTake = (path: string) => ['assess', path, '--phrase', PHRASE] as const;

/** What is called, and how its one line begins. */
const BAD_CALLS: readonly (readonly [string, readonly string[]])[] = [
  ['command line: expected one take and --phrase. Usage: assess', ['assess']],
  ['command line: expected one take and --phrase. Usage: assess', ['assess', TAKE]],
  ['command line: expected one take and --phrase.', ['assess', '--phrase', PHRASE]],
  [
    "command line: Option '--phrase <value>' argument missing. Usage:",
    ['assess', TAKE, '--phrase'],
  ],
  ["command line: Unknown option '--louder'. Usage:", assess('--louder')],
  ["command line: Unknown option '-x'. Usage:", assess('-x')],
  ["command line: Unknown option '--Layer'. Usage:", assess('--Layer', '1')],
  ["command line: Unknown option '--__proto__'. Usage:", assess('--__proto__', '1')],
  ["command line: Option '--json' does not take an argument. Usage:", assess('--json=yes')],
  ["command line: Option '--count-in' argument is ambiguous. Usage:", assess('--count-in', '-XYZ')],
  ['command line: --layer is given twice. Usage:', assess('--layer', '1', '--layer', '2')],
  ['command line: --json is given twice. Usage:', assess('--json', '--json')],
  ['command line: --phrase is given twice. Usage:', assess('--phrase', PHRASE)],
  ['command line: a word is empty. Usage:', assess('--tempo', '')],
  ['command line: a word is empty. Usage:', ['expand', '']],
  ['command line: expected - once only', ['assess', '-', '--phrase', '-']],
  ['command line: --tempo 0: expected a number from 10 to 1200.', assess('--tempo', '0')],
  ['command line: --tempo 9.99: expected a number', assess('--tempo', '9.99')],
  ['command line: --tempo 1201: expected a number', assess('--tempo', '1201')],
  ['command line: --tempo 0x64: expected a number', assess('--tempo', '0x64')],
  ['command line: --tempo 1e2: expected a number', assess('--tempo', '1e2')],
  ['command line: --tempo 0b1100100: expected a number', assess('--tempo', '0b1100100')],
  ['command line: --tempo 100bpm: expected a number', assess('--tempo', '100bpm')],
  ['command line: --tempo 1,5: expected a number', assess('--tempo', '1,5')],
  ['command line: --tempo  : expected a number', assess('--tempo', ' ')],
  ['command line: --tempo .: expected a number', assess('--tempo', '.')],
  ['command line: --tempo Infinity: expected a number', assess('--tempo', 'Infinity')],
  ['command line: --tempo -100: expected a number', assess('--tempo', '-100')],
  ['command line: --layer 0: expected a whole number from 1 to 3.', assess('--layer', '0')],
  ['command line: --layer 4: expected a whole number from 1 to 3.', assess('--layer', '4')],
  ['command line: --layer 1.5: expected a whole number', assess('--layer', '1.5')],
  ['command line: --layer 1e0: expected a whole number', assess('--layer', '1e0')],
  ['command line: --layer last: expected a whole number', assess('--layer', 'last')],
  [
    'command line: --count-in -1: expected a whole number from 0 to 64.',
    assess('--count-in', '-1'),
  ],
  ['command line: --count-in 65: expected a whole number', assess('--count-in', '65')],
  ['command line: --tolerance 0: expected a number from 1 to 500.', assess('--tolerance', '0')],
  ['command line: --reach 501: expected a number from 1 to 500.', assess('--reach', '501')],
  ['nowhere.json: there is no such file.', onPhrase('nowhere.json')],
  [`${folder}: this is a folder, expected a file.`, onPhrase(folder)],
  [`${INSIDE}: the file cannot be read (ENOTDIR).`, onPhrase(INSIDE)],
  [`${LOOP}: the file cannot be read (ELOOP).`, onPhrase(LOOP)],
  [`${EMPTY}: `, onPhrase(EMPTY)],
  [`${CUT}: `, onPhrase(CUT)],
  [`${LIST}: `, onPhrase(LIST)],
  [`${NULL}: `, onPhrase(NULL)],
  [`${UNKNOWN_METER}: meter: `, onPhrase(UNKNOWN_METER)],
  [`${UNKNOWN_KEY}: `, onPhrase(UNKNOWN_KEY)],
  [`${SELECTOR_LIST}: `, onPhrase(SELECTOR_LIST)],
  [`${LATIN}: line 2: expected UTF-8 text.`, onPhrase(LATIN)],
  [`${WIDE}: line 1: expected UTF-8 text.`, onPhrase(WIDE)],
  [`${TAKE}: line 1: expected UTF-8 text.`, onPhrase(TAKE)],
  ['nowhere.mid: there is no such file.', onTake('nowhere.mid')],
  [`${join(folder, 'sub')}: found no takes in this folder`, onTake(join(folder, 'sub'))],
  [`${EMPTY}: `, onTake(EMPTY)],
  [`${PHRASE}: `, onTake(PHRASE)],
  [`${CUT_TAKE}: `, onTake(CUT_TAKE)],
  [`${BEHEADED_TAKE}: `, onTake(BEHEADED_TAKE)],
  [`${FORMAT_2}: `, onTake(FORMAT_2)],
  [
    `${LATE_TAKE}: From bar 1 to the last message lie about 1440000 partials, and at most 500000`,
    onTake(LATE_TAKE),
  ],
  ['nowhere.json: there is no such file.', assess('--kit', 'nowhere.json')],
  [`${BLANK_KIT}: `, assess('--kit', BLANK_KIT)],
  [`${LATIN_KIT}: line 1: expected UTF-8 text.`, assess('--kit', LATIN_KIT)],
  ['command line: expected one phrase. Usage: expand', ['expand']],
  ['command line: expected one phrase. Usage: expand', ['expand', PHRASE, PHRASE]],
  ['nowhere.json: there is no such file.', ['expand', '--', 'nowhere.json']],
  ['-h: there is no such file.', ['expand', '--', '-h']],
  [
    'command line: --bars 0: expected a whole number from 1 to 10000.',
    ['expand', PHRASE, '--bars', '0'],
  ],
  ["command line: Unknown option '--tempo'. Usage:", ['expand', PHRASE, '--tempo', '90']],
  ['command line: expected one take. Usage: capture', ['capture']],
  ['command line: expected one take. Usage: capture', ['capture', OWN, OWN]],
  [`${PHRASE}: `, ['capture', PHRASE]],
  ["command line: Option '-o, --output <value>' argument missing. Usage:", ['capture', OWN, '-o']],
  [
    'command line: --output is given twice.',
    ['capture', OWN, '-o', 'a.json', '--output', 'b.json'],
  ],
  [`${THERE}: there is a file already; --force writes over it.`, ['capture', OWN, '-o', THERE]],
  [`${OWN}: this is the file that was read;`, ['capture', OWN, '-o', OWN]],
  [`${OWN}: this is the file that was read;`, ['capture', OWN, '-o', OWN, '--force']],
  [`${LINKED}: this is the file that was read;`, ['capture', OWN, '-o', LINKED, '--force']],
  [`${POINTED}: this is the file that was read;`, ['capture', OWN, '-o', POINTED, '--force']],
  [`${folder}: this is a folder, expected a file.`, ['capture', OWN, '-o', folder, '--force']],
  [
    `${folder}/no/a.json: it cannot be written there (ENOENT).`,
    ['capture', OWN, '-o', join(folder, 'no/a.json')],
  ],
  [`${INSIDE}: it cannot be written there (ENOTDIR).`, ['capture', OWN, '-o', INSIDE]],
  ['/dev/full: it cannot be written there (ENOSPC).', ['capture', OWN, '-o', '/dev/full']],
];

/** Names and contents of all that lies in the folder. */
const contents = () =>
  readdirSync(folder, { withFileTypes: true }).map((entry) => [
    entry.name,
    entry.isFile() ? readFileSync(join(folder, entry.name), 'latin1') : '',
  ]);

describe('a bad call', () => {
  it.each(BAD_CALLS.map(([line, words]) => [words.join(' '), line, words] as const))(
    '%s: one line, exit code 2, nothing written',
    async (_, line, [name, ...words]) => {
      const before = contents();
      const answer = await answerOf(name as 'assess' | 'expand' | 'capture', ...words);
      expect(answer).toMatchObject({ status: 2, stdout: '' });
      expect(answer.stderr).toMatch(/^[^\n]+\n$/);
      expect(answer.stderr.slice(0, line.length)).toBe(line);
      expect(contents()).toEqual(before);
    },
  );

  it('has a table of 60 and more', () => expect(BAD_CALLS.length).toBeGreaterThanOrEqual(60));
});
