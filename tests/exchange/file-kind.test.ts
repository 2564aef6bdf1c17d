import { readFileSync, readdirSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { fileKind, type FileKind } from '../../src/exchange/file-kind';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { writeKit } from '../../src/kit/parse-kit';
import { writePhrases } from '../../src/phrase/file/phrase-list';
import { trustPhrase } from '../../src/phrase/file/parse-phrase';
import { writeMxl } from '../../src/notation/musicxml/mxl';
import { layerScore } from '../../src/notation/score/layer-score';
import { writeTake } from '../../src/take/take-json';
import { libraryPhrases } from '../phrase/library-phrases';
import { sampleTake } from '../store/sample-take';

const utf8 = (text: string) => new TextEncoder().encode(text);
const phrases = libraryPhrases().map(({ text }) => trustPhrase(text));
const TAKES = new URL('../../shared/takes/', import.meta.url);

const FILES: readonly (readonly [FileKind, Uint8Array])[] = [
  ...libraryPhrases().map(({ text }) => ['phrase', utf8(text)] as const),
  ['phrase', utf8('\uFEFF\r\n\t {"title": "Größe \\" {", "layers": [')],
  ['phrases', utf8(writePhrases(phrases))],
  ['kit', utf8(writeKit(GENERAL_MIDI))],
  ['kit', utf8(writeKit({ ...EDGE_AND_RIM, title: '"take": 1' }))],
  ['take', utf8(writeTake(sampleTake()))],
  ...readdirSync(TAKES)
    .filter((name) => name.endsWith('.mid'))
    .map((name) => ['MIDI file', readFileSync(new URL(name, TAKES))] as const),
  ['backup', gzipSync('{}')],
  ['score', utf8('\uFEFF<?xml version="1.0"?>\n<score-partwise version="4.0">')],
  ['score', utf8('\n<score-partwise/>')],
  ['compressed score', writeMxl([layerScore(phrases[0]!, 1)])],
  ['link', utf8('http://localhost:4173/#open/p1.q1Y')],
  ['link', utf8('p1.q1Y')],
];

describe('what a file is', () => {
  it.each(FILES)('%s is told by its content', (kind, bytes) => {
    expect(fileKind(bytes)).toBe(kind);
  });

  it.each(FILES.filter(([kind, { length }]) => kind !== 'link' && length > 200))(
    '%s is told when it is cut off',
    (kind, bytes) => {
      expect(fileKind(bytes.subarray(0, bytes.length >> 1))).toBe(kind);
    },
  );

  it.each([
    ['nothing', ''],
    ['a letter', 'Dear harbour master, "title": 1'],
    ['other JSON', '{ "name": "x", "deep": { "layers": [] } }'],
    ['a list', '[{ "title": "x" }]'],
    ['text that ends in a text', '{ "tit'],
    ['text that ends in a backslash', '{ "a\\'],
    ['an address of another screen', 'http://localhost:4173/#phrases/quay-steps'],
  ])('%s is nothing that is known', (_, text) => {
    expect(fileKind(utf8(text))).toBeUndefined();
  });

  it('is told at once of files nested deep or long', () => {
    const deep = utf8(`{"a":${'['.repeat(3_000_000)}`);
    const startMs = performance.now();
    expect(fileKind(deep)).toBeUndefined();
    expect(fileKind(utf8(`{"title":"${'x'.repeat(3_000_000)}"}`))).toBe('phrase');
    expect(performance.now() - startMs).toBeLessThan(2000);
  });
});
