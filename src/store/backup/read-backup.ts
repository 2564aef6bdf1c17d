import * as v from 'valibot';
import { bad, good, type Result } from '../../time/result';
import { DATABASE_VERSION } from '../tables';
import { BACKUP_LIMITS, BACKUP_VERSION, type BackupLimits, type EntryInFile } from './backup-entry';
import { backupProblem, type BackupProblem, type BackupProblemCode } from './backup-problem';
import { crc32 } from './crc-32';
import { eachChunk } from './each-chunk';
import { ENVELOPE_BYTES, sealOf } from './gzip-envelope';
import { fromStructuredJson } from './structured-json';

const HeadShape = v.object({ backup: v.number(), database: v.number(), at: v.string() });
const SettingShape = v.object({ setting: v.string(), text: v.string() });
const RecordShape = v.object({ table: v.string(), record: v.unknown() });
const EndShape = v.object({ entries: v.number() });

/**
 * Reads a file that `writeBackup` wrote. Its checksum is looked at before anything is unpacked, and what it unpacks to
 * is counted while it does.
 *
 * @param take is given the entries one after the other; a file may still turn out bad after some of them
 * @returns when it was saved, ISO 8601
 */
export async function readBackup(
  file: Blob,
  take: (entry: EntryInFile) => Promise<void> | void,
  limits = BACKUP_LIMITS,
): Promise<Result<string, BackupProblem>> {
  if (!('DecompressionStream' in globalThis)) return bad(backupProblem('NO_GZIP'));
  if (file.size > limits.fileBytes) return bad(backupProblem('TOO_LARGE'));
  try {
    const head = new Uint8Array(await file.slice(0, ENVELOPE_BYTES).arrayBuffer());
    const checksum = sealOf(head);
    if (checksum === undefined) return bad(backupProblem('NOT_A_BACKUP'));
    let found = 0;
    await eachChunk(file.slice(ENVELOPE_BYTES).stream(), (chunk) => {
      found = crc32(chunk, found);
    });
    if (found !== checksum) return bad(backupProblem('DAMAGED_BACKUP'));
  } catch {
    return bad(backupProblem('FILE_UNREADABLE'));
  }
  const lines = new BackupLines(take, limits);
  try {
    const unpacked = file.stream().pipeThrough(new DecompressionStream('gzip'));
    await eachChunk(unpacked, (chunk) => lines.read(chunk));
    return lines.end();
  } catch (error) {
    if (error instanceof Refusal) return bad(backupProblem(error.code));
    return bad(backupProblem('DAMAGED_BACKUP'));
  }
}

class Refusal extends Error {
  readonly code: BackupProblemCode;
  constructor(code: BackupProblemCode) {
    super(code);
    this.code = code;
  }
}

/** The lines of a backup, put together from the pieces they come in. */
class BackupLines {
  readonly #take: (entry: EntryInFile) => Promise<void> | void;
  readonly #limits: BackupLimits;
  readonly #decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  #bytes = 0;
  #rest = '';
  #at: string | undefined;
  #entries = 0;
  #counted: number | undefined;

  constructor(take: (entry: EntryInFile) => Promise<void> | void, limits: BackupLimits) {
    this.#take = take;
    this.#limits = limits;
  }

  async read(chunk: Uint8Array): Promise<void> {
    this.#bytes += chunk.length;
    if (this.#bytes > this.#limits.textBytes) throw new Refusal('TOO_LARGE');
    const text = this.#decoder.decode(chunk, { stream: true });
    const lines = (text.includes('\n') ? this.#rest + text : text).split('\n');
    // A long line is put together once, not looked through again with every piece.
    this.#rest = lines.length === 1 ? this.#rest + text : lines.at(-1)!;
    if (this.#rest.length > this.#limits.lineCharacters) throw new Refusal('TOO_LARGE');
    for (const line of lines.slice(0, -1)) await this.#line(line);
  }

  end(): Result<string, BackupProblem> {
    const isWhole = this.#rest === '' && this.#counted === this.#entries;
    return isWhole && this.#at !== undefined
      ? good(this.#at)
      : bad(backupProblem('DAMAGED_BACKUP'));
  }

  async #line(line: string): Promise<void> {
    const json = fromStructuredJson(line);
    if (this.#at === undefined) this.#at = readHead(json);
    else if (this.#counted !== undefined) throw new Refusal('DAMAGED_BACKUP');
    else if (v.is(EndShape, json)) this.#counted = json.entries;
    else {
      if (++this.#entries > this.#limits.entries) throw new Refusal('TOO_LARGE');
      await this.#take(v.parse(v.union([SettingShape, RecordShape]), json));
    }
  }
}

function readHead(json: unknown): string {
  const { backup, database, at } = v.parse(HeadShape, json);
  if (backup > BACKUP_VERSION || database > DATABASE_VERSION) throw new Refusal('NEWER_BACKUP');
  return at;
}
