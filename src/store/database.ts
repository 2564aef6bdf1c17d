import Dexie, { type EntityTable, type Table } from 'dexie';
import { bad, good, type Result } from '../time/result';
import type { OwnText } from './own-text';
import { openingProblem, requestProblem, storeProblem, type StoreProblem } from './store-problem';
import type { StoredTakeSummary } from '../take/take-summary';
import type { PackedCapture } from './packed-capture';
import type { PackedTake } from './packed-take';
import type { JournalPart } from './journal-part';

/** Raise it with every change to the tables below, and say there how older records are read. */
export const DATABASE_VERSION = 2;
export const DATABASE_NAME = 'layered-phrases';

export interface Tables {
  /** What the log lists; small. */
  readonly summaries: EntityTable<StoredTakeSummary, 'id'>;
  /** One record a take, under the same id. */
  readonly takes: EntityTable<PackedTake, 'id'>;
  readonly phrases: EntityTable<OwnText, 'id'>;
  readonly kits: EntityTable<OwnText, 'id'>;
  /** Takes being played, part by part. */
  readonly journal: Table<JournalPart>;
  /** What was played to be written down as a phrase. Since version 2. */
  readonly plays: EntityTable<PackedCapture, 'id'>;
  /** Runs `work` as one transaction over the tables, all of it or nothing. */
  readonly together: <T>(tables: readonly Table[], work: () => Promise<T>) => Promise<T>;
}

const SCHEMA = {
  summaries: 'id, startedAt',
  takes: 'id',
  phrases: 'id',
  kits: 'id',
  journal: '[takeId+part], takeId',
  plays: 'id, at',
};

export interface DatabaseOptions {
  readonly name?: string;
  /** Told when the store is taken over or held by another tab, and again with undefined when it opens. */
  readonly onNotice?: (problem: StoreProblem | undefined) => void;
}

/**
 * Everything kept on this machine, as one versioned database. Nothing is read or written when the
 * stored version is newer than this code: Dexie alone would open it and write (dexie/Dexie.js#2097).
 */
export class PracticeDatabase {
  readonly #dexie: Dexie;
  readonly #name: string;
  readonly #notice: (problem: StoreProblem | undefined) => void;
  #opening: Promise<StoreProblem | undefined> | undefined;
  #refused: StoreProblem | undefined;

  constructor({ name = DATABASE_NAME, onNotice = () => undefined }: DatabaseOptions = {}) {
    this.#name = name;
    this.#notice = onNotice;
    this.#dexie = new Dexie(name, {
      autoOpen: false,
      chromeTransactionDurability: 'strict',
    });
    this.#dexie.version(DATABASE_VERSION).stores(SCHEMA);
    // Sticky, since Dexie also reopens by itself.
    this.#dexie.on(
      'ready',
      () => {
        if (this.#dexie.backendDB().version > versionInBrowser(DATABASE_VERSION))
          throw new DOMException('The stored version is newer.', 'VersionError');
      },
      true,
    );
    this.#dexie.on('blocked', () => this.#notice(storeProblem('blocked')));
    this.#dexie.on('versionchange', () => {
      this.#refuse(storeProblem('replaced'));
      return false;
    });
  }

  /** Opens when needed, does the work, and opens once more when the browser closed the store in between. */
  async run<T>(work: (tables: Tables) => Promise<T>): Promise<Result<T, StoreProblem>> {
    let problem = await this.#open();
    for (let attempt = 0; problem === undefined && attempt < 2; attempt++) {
      try {
        return good(await work(this.#tables()));
      } catch (error) {
        const found = this.#refused ?? requestProblem(error);
        if (found.code === 'full' || this.#refused) return bad(found);
        this.close();
        problem = attempt === 0 ? await this.#open() : found;
      }
    }
    return bad(problem ?? storeProblem('lost'));
  }

  close(): void {
    this.#opening = undefined;
    this.#dexie.close({ disableAutoOpen: true });
  }

  #open(): Promise<StoreProblem | undefined> {
    if (this.#refused) return Promise.resolve(this.#refused);
    this.#opening ??= this.#openNow().then((problem) => {
      if (problem) this.#opening = undefined;
      return problem;
    });
    return this.#opening;
  }

  async #openNow(): Promise<StoreProblem | undefined> {
    try {
      // Asked before Dexie opens: opening a newer store could already change it.
      if ((await storedVersion(this.#name)) > DATABASE_VERSION) return storeProblem('newer');
      await this.#dexie.open();
      this.#notice(undefined);
      return undefined;
    } catch (error) {
      return openingProblem(error);
    }
  }

  #refuse(problem: StoreProblem): void {
    this.#refused = problem;
    this.close();
    this.#notice(problem);
  }

  #tables(): Tables {
    const dexie = this.#dexie;
    return {
      summaries: dexie.table('summaries'),
      takes: dexie.table('takes'),
      phrases: dexie.table('phrases'),
      kits: dexie.table('kits'),
      journal: dexie.table('journal'),
      plays: dexie.table('plays'),
      together: (tables, work) => dexie.transaction('rw', [...tables], work),
    };
  }
}

/** Dexie keeps its version times ten. */
const versionInBrowser = (version: number) => version * 10;

/** 0 when nothing is stored, or the browser does not tell. */
async function storedVersion(name: string): Promise<number> {
  const known = await indexedDB.databases?.();
  return (known?.find((database) => database.name === name)?.version ?? 0) / versionInBrowser(1);
}
