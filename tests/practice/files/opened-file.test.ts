import { describe, expect, it, vi } from 'vitest';
import { openFile, type FileReaders } from '../../../src/practice/files/opened-file';
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
});
