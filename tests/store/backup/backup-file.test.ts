import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  BACKUP_LIMITS,
  type BackupEntry,
  type EntryInFile,
} from '../../../src/store/backup/backup-entry';
import { crc32 } from '../../../src/store/backup/crc-32';
import { Envelope } from '../../../src/store/backup/gzip-envelope';
import { readBackup } from '../../../src/store/backup/read-backup';
import { writeBackup } from '../../../src/store/backup/write-backup';
import { DATABASE_VERSION } from '../../../src/store/tables';
import { good, type Result } from '../../../src/time/result';
import { packTake } from '../../../src/store/packed-take';
import { sampleTake } from '../sample-take';
import { arbitraryRecords } from './arbitrary-records';

const AT = '2026-05-04T18:20:00.000Z';
const SAMPLE: readonly BackupEntry[] = [
  { setting: 'rigs', text: '[{"offsetMs":7.5}]' },
  { table: 'takes', record: packTake('quay', sampleTake()) },
  { table: 'phrases', record: { id: 'ebb', damaged: NaN } },
];

async function* inBatches(entries: readonly BackupEntry[]) {
  for (let from = 0; from < entries.length; from += 3) yield good(entries.slice(from, from + 3));
}

async function fileOf(entries: readonly BackupEntry[], limits = BACKUP_LIMITS): Promise<Blob> {
  const written = await writeBackup(inBatches(entries), AT, limits);
  if (!written.ok) throw new Error(written.errors[0]!.code);
  return written.value.file;
}

async function entriesOf(file: Blob, limits = BACKUP_LIMITS) {
  const entries: EntryInFile[] = [];
  const read = await readBackup(file, (entry) => void entries.push(entry), limits);
  return { code: read.ok ? undefined : read.errors[0]!.code, at: read.ok && read.value, entries };
}

/** A file with a right checksum, whatever its text is. */
async function fileOfText(text: string): Promise<Blob> {
  const bytes = new TextEncoder().encode(text);
  const deflated = new Blob([bytes]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  const envelope = new Envelope();
  envelope.add(new Uint8Array(await new Response(deflated).arrayBuffer()));
  return envelope.close(crc32(bytes), bytes.length);
}
const HEAD = JSON.stringify({ backup: 1, database: DATABASE_VERSION, at: AT });

describe('the checksum', () => {
  it('is that of gzip: the check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRCs', () => {
    // https://reveng.sourceforge.io/crc-catalogue/17plus.htm#crc.cat.crc-32-iso-hdlc: check=0xcbf43926
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  });

  it('goes on where it was left', () => {
    const bytes = new TextEncoder().encode('123456789');
    expect(crc32(bytes.subarray(4), crc32(bytes.subarray(0, 4)))).toBe(0xcbf43926);
  });
});

describe('a backup', () => {
  it('reads back as it was written', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryRecords, async (records) => {
        const { code, at, entries } = await entriesOf(await fileOf(records));
        expect(code).toBeUndefined();
        expect(at).toBe(AT);
        expect(entries).toStrictEqual(records);
      }),
    );
  });

  it('is gzip that any program unpacks, a line of JSON for each entry', async () => {
    // The browser's own reader stands for those programs: RFC 1952.
    const unpacked = (await fileOf(SAMPLE)).stream().pipeThrough(new DecompressionStream('gzip'));
    const lines = (await new Response(unpacked).text()).trimEnd().split('\n');
    expect(lines).toHaveLength(SAMPLE.length + 2);
    expect(JSON.parse(lines[0]!)).toEqual({ backup: 1, database: DATABASE_VERSION, at: AT });
    expect(JSON.parse(lines.at(-1)!)).toEqual({ entries: SAMPLE.length });
  });

  it('leaves out and counts what no file can hold', async () => {
    const written = await writeBackup(
      inBatches([...SAMPLE, { table: 'kits', record: new Blob(['a']) }]),
      AT,
    );
    expect(written.ok && written.value).toMatchObject({ entries: SAMPLE.length, leftOut: 1 });
  });

  it('is not written where what is kept cannot be read', async () => {
    const problem = { code: 'LOST' };
    async function* failing(): AsyncGenerator<Result<readonly BackupEntry[], typeof problem>> {
      yield good(SAMPLE);
      yield { ok: false, errors: [problem] };
    }
    expect(await writeBackup(failing(), AT)).toEqual({ ok: false, errors: [problem] });
  });
});

describe('a file that is no whole backup', () => {
  it('is refused whichever byte is changed', async () => {
    const bytes = new Uint8Array(await (await fileOf(SAMPLE)).arrayBuffer());
    for (let at = 0; at < bytes.length; at++) {
      const changed = bytes.slice();
      changed[at]! ^= 1 << (at % 8);
      const { code } = await entriesOf(new Blob([changed]));
      expect(code, `byte ${at}`).toMatch(/^(NOT_A|DAMAGED)_BACKUP$/);
    }
  });

  it('is refused wherever it is cut off, and with something after it', async () => {
    const bytes = new Uint8Array(await (await fileOf(SAMPLE)).arrayBuffer());
    for (let length = 0; length < bytes.length; length += 9) {
      const { code } = await entriesOf(new Blob([bytes.subarray(0, length)]));
      expect(code, `${length} bytes`).toMatch(/^(NOT_A|DAMAGED)_BACKUP$/);
    }
    expect((await entriesOf(new Blob([bytes, 'x']))).code).toBe('DAMAGED_BACKUP');
  });

  it.each([
    ['nothing', ''],
    ['a phrase', '{"title":"Ebb"}'],
    ['a MIDI file', 'MThd\0\0\0\x06'],
  ])('is told from a backup: %s', async (_, content) => {
    expect((await entriesOf(new Blob([content]))).code).toBe('NOT_A_BACKUP');
  });

  it('is told from a backup: gzip of something else', async () => {
    const packed = new Blob(['hello']).stream().pipeThrough(new CompressionStream('gzip'));
    expect((await entriesOf(await new Response(packed).blob())).code).toBe('NOT_A_BACKUP');
  });

  it('is told when it cannot be read', async () => {
    const file = await fileOf(SAMPLE);
    file.slice = () => {
      throw new DOMException('gone', 'NotReadableError');
    };
    expect((await entriesOf(file)).code).toBe('FILE_UNREADABLE');
  });

  it.each([
    ['of a newer form', HEAD.replace('"backup":1', '"backup":2'), 'NEWER_BACKUP'],
    [
      'of newer tables',
      HEAD.replace(`"database":${DATABASE_VERSION}`, `"database":${DATABASE_VERSION + 1}`),
      'NEWER_BACKUP',
    ],
    ['of this form', HEAD, undefined],
    ['without a head', '{"setting":"a","text":"b"}', 'DAMAGED_BACKUP'],
  ])('%s', async (_, head, code) => {
    expect((await entriesOf(await fileOfText(`${head}\n{"entries":0}\n`))).code).toBe(code);
  });

  it.each([
    ['with fewer entries than it says', '{"entries":1}\n'],
    ['that goes on after its end', '{"entries":0}\n{"setting":"a","text":"b"}\n'],
    ['that ends in mid-line', '{"entries":0}\n{"setting":"a"'],
    ['with a line that is no entry', '{"table":7}\n{"entries":1}\n'],
    ['with a line that is no JSON', 'x\n{"entries":1}\n'],
    ['without an end', ''],
  ])('%s', async (_, rest) => {
    expect((await entriesOf(await fileOfText(`${HEAD}\n${rest}`))).code).toBe('DAMAGED_BACKUP');
  });
});

describe('a file that unpacks to more than fits', () => {
  const limits = { fileBytes: 1e6, textBytes: 10_000, lineCharacters: 2000, entries: 10 };
  const setting = (length: number) => ({ setting: 'a', text: 'x'.repeat(length) });
  /** A line has 26 letters around the text. */
  const AROUND = JSON.stringify(setting(0)).length;

  it.each([
    ['ten entries', Array.from({ length: 10 }, () => setting(1)), undefined],
    ['eleven entries', Array.from({ length: 11 }, () => setting(1)), 'TOO_LARGE'],
    ['a line of 2000 letters', [setting(2000 - AROUND)], undefined],
    ['a line of 2 MB', [setting(2e6)], 'TOO_LARGE'],
    ['9 kB in all', Array.from({ length: 9 }, () => setting(1000 - AROUND)), undefined],
    ['11 kB in all', Array.from({ length: 10 }, () => setting(1100 - AROUND)), 'TOO_LARGE'],
  ])('%s', async (_, entries, code) => {
    expect((await entriesOf(await fileOf(entries), limits)).code).toBe(code);
  });

  it('is refused before it is unpacked further: 300 MB of spaces in 300 kB', async () => {
    const spaces = new Uint8Array(1e6).fill(32);
    let left = 300;
    const stream = new ReadableStream<Uint8Array<ArrayBuffer>>({
      pull: (control) => (left-- > 0 ? control.enqueue(spaces) : control.close()),
    }).pipeThrough(new CompressionStream('deflate-raw'));
    const envelope = new Envelope();
    envelope.add(new Uint8Array(await new Response(stream).arrayBuffer()));
    const file = envelope.close(0, 300e6);
    expect(file.size).toBeLessThan(limits.fileBytes);
    expect((await entriesOf(file, limits)).code).toBe('TOO_LARGE');
  });

  it('is refused unread when it is itself too large', async () => {
    const file = await fileOf(SAMPLE);
    const read = (fileBytes: number) => entriesOf(file, { ...BACKUP_LIMITS, fileBytes });
    expect((await read(file.size)).code).toBeUndefined();
    expect((await read(file.size - 1)).code).toBe('TOO_LARGE');
  });

  it('is not written in the first place', async () => {
    const many = Array.from({ length: 11 }, () => setting(1));
    const written = await writeBackup(inBatches(many), AT, limits);
    expect(written.ok ? undefined : written.errors[0]!.code).toBe('TOO_MUCH_KEPT');
  });
});
