import { strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readMxl, writeMxl } from '../../../src/notation/musicxml/mxl';
import { writeMusicXml } from '../../../src/notation/musicxml/write-musicxml';
import { MOST_XML } from '../../../src/notation/musicxml/xml-tree';
import { layerScore } from '../../../src/notation/score/layer-score';
import { phraseOf } from '../../phrase/phrase-of';

const SCORE = layerScore(phraseOf({ title: 'Breakwater', grouping: 'R L K' }), 1);
const container = (path: string) =>
  strToU8(`<container><rootfiles><rootfile full-path="${path}"/></rootfiles></container>`);
const titleIn = (bytes: Uint8Array) => {
  const read = readMxl(bytes);
  return read.ok ? read.value.phrase.title : read.errors[0]!.code;
};
const xml = strToU8(writeMusicXml([SCORE]));

describe('compressed MusicXML', () => {
  // MusicXML 4.0, "Compressed .MXL files": the media type first and stored, the container names the score.
  it('has its media type first, a container, and the score', () => {
    const bytes = writeMxl([SCORE]);
    expect(new TextDecoder().decode(bytes.slice(30, 38))).toBe('mimetype');
    expect(Object.keys(unzipSync(bytes))).toEqual([
      'mimetype',
      'META-INF/container.xml',
      'score.musicxml',
    ]);
    expect(titleIn(bytes)).toBe('Breakwater');
    expect(writeMxl([SCORE])).toEqual(bytes);
  });

  it.each([
    [
      'the score that the container names',
      {
        'META-INF/container.xml': container('b/c.xml'),
        'a.xml': strToU8('<svg/>'),
        'b/c.xml': xml,
      },
      'Breakwater',
    ],
    [
      'the only score where there is no container',
      { 'picture.png': xml, 'a.musicxml': xml },
      'Breakwater',
    ],
    ['nothing where there is no score', { 'picture.png': xml }, 'NOT_MXL'],
    [
      'nothing where the container names what is not there',
      { 'META-INF/container.xml': container('../../etc/passwd'), 'a.xml': xml },
      'NOT_MXL',
    ],
    [
      'a container that is no XML as none',
      { 'META-INF/container.xml': strToU8('<<'), 'a.xml': xml },
      'Breakwater',
    ],
  ])('reads %s', (_, files, answer) => {
    expect(titleIn(zipSync(files))).toBe(answer);
  });

  it('a bomb is refused by the size it says, before it is inflated', () => {
    const bomb = zipSync({ 'a.xml': new Uint8Array(MOST_XML + 1) });
    expect(bomb.length).toBeLessThan(100_000);
    expect(titleIn(bomb)).toBe('TOO_LARGE');
  });

  it('a bomb that says it is small is refused, too', () => {
    const bomb = zipSync({ 'a.xml': new Uint8Array(1_000_000) });
    const view = new DataView(bomb.buffer, bomb.byteOffset);
    const end = bomb.length - 22;
    const directory = view.getUint32(end + 16, true);
    view.setUint32(directory + 24, 100, true);
    expect(titleIn(bomb)).toMatch(/NOT_XML|NOT_MXL/);
  });

  it('thousands of entries are refused', () => {
    const files = Object.fromEntries(
      Array.from({ length: 1001 }, (_, i) => [`${i}.xml`, xml.slice(0, 9)]),
    );
    expect(titleIn(zipSync(files, { level: 0 }))).toBe('NOT_MXL');
  });

  it.each([
    ['nothing', new Uint8Array()],
    ['no zip', xml],
    ['the beginning of one', writeMxl([SCORE]).slice(0, 200)],
    ['an empty one', zipSync({})],
  ])('%s is refused', (_, bytes) => {
    expect(titleIn(bytes)).toBe('NOT_MXL');
  });
});
