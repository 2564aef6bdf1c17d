import { bad, good, type Result } from '../../time/result';
import { DATABASE_VERSION } from '../tables';
import { BACKUP_LIMITS, BACKUP_VERSION, type BackupEntry } from './backup-entry';
import { backupProblem, type BackupProblem } from './backup-problem';
import { crc32 } from './crc-32';
import { eachChunk } from './each-chunk';
import { Envelope } from './gzip-envelope';
import { structuredJson } from './structured-json';

export interface WrittenBackup {
  readonly file: Blob;
  readonly entries: number;
  /** Records that hold what no file can say. */
  readonly leftOut: number;
}

/**
 * One file of everything that comes, gzip: a line of JSON for what it is, one for each entry, one that counts them.
 *
 * @param batches what is to be kept, a few entries at a time; nothing is written when one of them is bad
 * @param at ISO 8601
 */
export async function writeBackup<Problem>(
  batches: AsyncIterable<Result<readonly BackupEntry[], Problem>>,
  at: string,
  limits = BACKUP_LIMITS,
): Promise<Result<WrittenBackup, Problem | BackupProblem>> {
  if (!('CompressionStream' in globalThis)) return bad(backupProblem('NO_GZIP'));
  const deflate = new CompressionStream('deflate-raw');
  const writer = deflate.writable.getWriter();
  const envelope = new Envelope();
  const packing = eachChunk(deflate.readable, (chunk) => envelope.add(chunk));
  let crc = 0;
  let length = 0;
  const write = async (line: string): Promise<void> => {
    const bytes = new TextEncoder().encode(`${line}\n`);
    crc = crc32(bytes, crc);
    length += bytes.length;
    await writer.write(bytes);
  };
  const giveUp = async () => {
    await Promise.allSettled([writer.abort(), packing]);
  };

  let entries = 0;
  let leftOut = 0;
  await write(JSON.stringify({ backup: BACKUP_VERSION, database: DATABASE_VERSION, at }));
  for await (const batch of batches) {
    if (!batch.ok) {
      await giveUp();
      return batch;
    }
    for (const entry of batch.value) {
      const line = lineOf(entry);
      if (line === undefined || line.length > limits.lineCharacters) leftOut++;
      else {
        await write(line);
        entries++;
      }
    }
    if (length > limits.textBytes || entries > limits.entries) {
      await giveUp();
      return bad(backupProblem('TOO_MUCH_KEPT'));
    }
  }
  await write(JSON.stringify({ entries }));
  await writer.close();
  await packing;
  return good({ file: envelope.close(crc, length), entries, leftOut });
}

function lineOf(entry: BackupEntry): string | undefined {
  if ('setting' in entry) return JSON.stringify(entry);
  const record = structuredJson(entry.record);
  return record && `{"table":${JSON.stringify(entry.table)},"record":${record}}`;
}
