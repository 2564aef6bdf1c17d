import { describe, expect, it, vi } from 'vitest';
import { openFile, type FileReaders } from '../../../src/practice/files/opened-file';
import { writeMidiFile } from '../../../src/take/write-midi-file';
import { beats } from '../../../src/time/beats';
import { parseMeter } from '../../../src/time/meter';
import { bad, good } from '../../../src/time/result';
import { SOUND } from '../../phrase/file/broken-phrases';
import { ZLIB } from '../../phrase/file/zlib-packing';

const open = vi.fn<FileReaders['backups']['open']>(async () => bad());
const READERS: FileReaders = { backups: { open }, packing: ZLIB };
const fileOf = (content: string, name = 'x') => new File([content], name);
const problemOf = async (file: File) => {
  const opened = await openFile(file, READERS);
  return opened.ok ? undefined : opened.errors[0]?.message;
};

describe('a file that is opened', () => {
  it('is read by what is in it, whatever its name', async () => {
    const opened = await openFile(fileOf(JSON.stringify(SOUND), 'take.mid'), READERS);
    expect(opened).toMatchObject(good({ kind: 'phrases', phrases: [{ title: SOUND.title }] }));
  });

  it('is not read as a whole where it is a backup, however large', async () => {
    const file = fileOf('\u001f');
    const head = new Blob([Uint8Array.of(0x1f, 0x8b)]);
    Object.assign(file, {
      slice: () => head,
      arrayBuffer: () => Promise.reject(new Error('read')),
    });
    Object.defineProperty(file, 'size', { value: 400e6 });
    await openFile(file, READERS);
    expect(open).toHaveBeenCalledWith(file);
  });

  it('is told when it cannot be read, or is larger than any', async () => {
    const gone = fileOf('{"take":1}');
    gone.arrayBuffer = () => Promise.reject(new DOMException('gone', 'NotReadableError'));
    expect(await problemOf(gone)).toMatch(/^It cannot be read/);
    const ofSize = (size: number) => Object.defineProperty(fileOf('{}'), 'size', { value: size });
    expect(await problemOf(ofSize(32e6))).toMatch(/^It is nothing that can be opened/);
    expect(await problemOf(ofSize(32e6 + 1))).toMatch(/^It has over 32 MB/);
  });

  it('is told when the part that reads it cannot be fetched, and read without it where it can be', async () => {
    const READERS_OF_MUSIC = '../../../src/practice/files/music-readers';
    vi.doMock(READERS_OF_MUSIC, () => {
      throw new Error('gone');
    });
    expect(await problemOf(fileOf('<score-partwise/>'))).toMatch(
      /^The part that reads music could not be fetched/,
    );
    const midi = writeMidiFile({
      messages: [],
      tempos: [{ fromBeat: beats(0), bpm: 90 }],
      meter: parseMeter('4/4')!,
      countInBars: 0,
    });
    const opened = await openFile(new File([Uint8Array.from(midi)], 'x'), READERS);
    expect(opened).toMatchObject(good({ kind: 'MIDI file' }));
    vi.doUnmock(READERS_OF_MUSIC);
  });
});
