import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { expand } from '../../src/phrase/layers/expand';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { byMidiFile } from '../take/other-readers';
import { foreignNote, foreignScore } from '../notation/musicxml/foreign-score';
import { answerOf } from './run-command';

const PHRASE = 'shared/phrases/fog-signal.json';
const folder = mkdtempSync(join(tmpdir(), 'convert-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fileOf = (name: string) => join(folder, name);

async function convert(...words: string[]) {
  const { status, stdout, stderr } = await answerOf('convert', ...words);
  expect([status, stderr]).toEqual([0, '']);
  return stdout;
}

function phraseAt(path: string) {
  const parsed = parsePhrase(readFileSync(path, 'utf8'));
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  return parsed.value;
}
const markersIn = (path: string) =>
  byMidiFile(readFileSync(path))
    .tracks[0]!.filter(({ words }) => words.startsWith('marker Layer'))
    .map(({ words }) => words);
const sounds = (path: string, layer?: number) => {
  const phrase = phraseAt(path);
  return expand(phrase, layer ?? phrase.layers.length, { bars: 4 }).map(
    ({ onset, limb, voice, level }) => `${onset.toFraction()} ${limb} ${voice} ${level}`,
  );
};

describe('convert', () => {
  it('writes a phrase as a MIDI file and reads the same target from it', async () => {
    const midi = fileOf('fog.mid');
    expect(await convert(PHRASE, '-o', midi)).toBe(
      'Layer 5 of 5 is written; the file does not say which layer made a note.\n',
    );
    expect(markersIn(midi)).toEqual(['marker Layer 5: Ghosts']);
    const again = fileOf('fog.json');
    expect(await convert(midi, '-o', again)).toBe('');
    expect(sounds(again)).toEqual(sounds(PHRASE));
    expect(phraseAt(again).title).toBe('Fog Signal');
  });

  it('writes the layers that are asked for, and reads one of them', async () => {
    const midi = fileOf('all.mid');
    await convert(PHRASE, '-o', midi, '--layer', 'all', '--bars', '4');
    expect(markersIn(midi)).toHaveLength(5);
    const second = fileOf('second.json');
    expect(await convert(midi, '-o', second, '--layer', '2')).toContain('layer 2 is read');
    expect(sounds(second)).toEqual(sounds(PHRASE, 2));
    const one = fileOf('one.MID');
    await convert(PHRASE, '-o', one, '--layer', '2');
    expect(markersIn(one)).toHaveLength(1);
  });

  it.each(['.musicxml', '.mxl'])(
    'writes MusicXML and reads the same target from it: %s',
    async (end) => {
      const score = fileOf(`fog${end}`);
      expect(await convert(PHRASE, '-o', score)).toBe(
        'Layer 5 of 5 is written; the file does not say which layer made a note.\n',
      );
      const again = fileOf(`fog-of${end}.json`);
      expect(await convert(score, '-o', again)).toBe('');
      expect(sounds(again)).toEqual(sounds(PHRASE));
      const two = fileOf(`two${end}`);
      await convert(PHRASE, '-o', two, '--layer', '2', '--bars', '4');
      await convert(two, '-o', fileOf(`two-of${end}.json`));
      expect(sounds(fileOf(`two-of${end}.json`))).toEqual(sounds(PHRASE, 2));
    },
  );

  it('writes a layer as MEI, and one alone', async () => {
    const mei = fileOf('fog.mei');
    await convert(PHRASE, '-o', mei, '--layer', '2', '--bars', '3');
    expect(readFileSync(mei, 'utf8').match(/<measure /g)).toHaveLength(3);
    const all = await answerOf('convert', PHRASE, '-o', fileOf('all.mei'), '--layer', 'all');
    expect(all.stderr).toBe(
      'command line: --layer: an .mei file has one layer; name it by its number.\n',
    );
    const read = await answerOf('convert', mei, '-o', fileOf('mei.json'));
    expect(read.stderr).toContain('MEI is written and not read');
  });

  it('says of a score by others in which bar something is left out, and that hands are guessed', async () => {
    const snare = foreignNote({ place: 'C5', duration: 16 });
    const score = fileOf('foreign.musicxml');
    const tempo = '<sound tempo="100"/>';
    const repeated = '<barline><repeat direction="backward"/></barline>';
    writeFileSync(score, foreignScore([tempo + snare, snare + repeated, snare]));
    expect(await convert(score, '-o', fileOf('foreign.json'))).toBe(
      [
        'The file does not say which hand strikes; the sticking is a guess. Correct it in the phrase.',
        'Bar 2: a repeat ends here; its bars are read once.',
        '',
      ].join('\n'),
    );
  });

  it('says where in a file that is no XML', async () => {
    const path = fileOf('broken.musicxml');
    writeFileSync(path, '<score-partwise>\n<part>');
    const { stderr } = await answerOf('convert', path, '-o', fileOf('broken.json'));
    expect(stderr.startsWith(`${path}: line 2, column 6: This is no XML`)).toBe(true);
  });

  it('says what General MIDI has no key for', async () => {
    const path = fileOf('splash.json');
    const layers = [
      { name: 'Sticking' },
      { name: 'Foot', changes: [{ where: { limb: 'F' }, set: { voice: 'hi-hat foot splash' } }] },
    ];
    const head = { title: 'Splash', meter: '4/4', tempoBpm: 90, subdivision: 2 };
    writeFileSync(path, JSON.stringify({ ...head, grouping: 'R F', layers }));
    expect(await convert(path, '-o', fileOf('splash.mid'))).toContain(
      'General MIDI has no key for a foot splash: it is written as the hi-hat pedal.\n',
    );
  });

  it('keeps what is there unless it is forced, and never writes over what it read', async () => {
    const there = fileOf('there.mid');
    writeFileSync(there, 'mine');
    const refused = await answerOf('convert', PHRASE, '-o', there);
    expect(refused).toMatchObject({ status: 2, stdout: '' });
    expect(refused.stderr).toBe(`${there}: there is a file already; --force writes over it.\n`);
    expect(readFileSync(there, 'utf8')).toBe('mine');
    await convert(PHRASE, '-o', there, '--force');
    const own = await answerOf('convert', there, '-o', there, '--force');
    expect(own).toMatchObject({ status: 2, stdout: '' });
  });

  it.each([
    ['command line: expected one file', ['-o', 'x.mid']],
    ['command line: expected -o and a file name.', [PHRASE]],
    [
      'command line: OUT.txt: expected a name that ends in one of .json, .mid, .musicxml, .mxl, .mei.',
      [PHRASE, '-o', 'OUT.txt'],
    ],
    ['command line: standard input: expected a name that ends in', ['-', '-o', 'OUT.mid']],
    ['command line: --bars: a .json file has no bars', [PHRASE, '-o', 'OUT.json', '--bars', '3']],
    [
      'command line: --layer: a .json file has all layers',
      [PHRASE, '-o', 'OUT.json', '--layer', '1'],
    ],
    [
      'command line: --layer 9: expected a whole number from 1 to 5.',
      [PHRASE, '-o', 'OUT.mid', '--layer', '9'],
    ],
    ['command line: --bars 0: expected a whole number', [PHRASE, '-o', 'OUT.mid', '--bars', '0']],
    [
      'shared/takes/take-01.mid: Most of its notes lie between',
      ['shared/takes/take-01.mid', '-o', 'OUT.json'],
    ],
    [
      'shared/takes/README.json: there is no such file.',
      ['shared/takes/README.json', '-o', 'OUT.mid'],
    ],
  ])('says in one line, and writes nothing: %s', async (line, words) => {
    const { status, stdout, stderr } = await answerOf('convert', ...words);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr.startsWith(line)).toBe(true);
    expect(stderr.split('\n')).toHaveLength(2);
    expect(['OUT.mid', 'OUT.json', 'OUT.txt'].filter((name) => existsSync(name))).toEqual([]);
  });
});
