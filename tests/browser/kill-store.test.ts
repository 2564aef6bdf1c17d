import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, inject, it } from 'vitest';
import type { BackupEntry } from '../../src/store/backup/backup-entry';
import { writeBackup } from '../../src/store/backup/write-backup';
import { packTake } from '../../src/store/packed-take';
import { chance } from '../../src/time/chance';
import { good } from '../../src/time/result';
import type { OwnText } from '../../src/store/tables';
import { fakeMidiScript } from '../midi/fake-midi-access';
import { longRunCount } from '../run-count';
import { recordsIn, type ReleasedStore } from '../store/released-store';
import VERSION_1 from '../store/released/version-1.json';
import VERSION_2 from '../store/released/version-2.json';
import { sampleSummary, sampleTake } from '../store/sample-take';
import { connectKit } from './page/app';
import { startChromium } from './page/killable-chromium';

/** Moments of each of the four; a part of a part in the check, since two browsers are begun for each. */
const KILLS = longRunCount(longRunCount(18));
const SEED = 20261129;
const TAKES = 200;
const TABLES = ['takes', 'summaries', 'phrases', 'kits', 'plays'] as const;
type Kept = Readonly<Record<(typeof TABLES)[number], readonly { readonly id: string }[]>>;

/** A backup of many takes, none of them in the stores that are installed. */
let backup: Buffer;
beforeAll(async () => {
  const stroke = sampleTake().messages[0]!;
  const messages = Array.from({ length: 1500 }, (_, i) => ({ ...stroke, timeUs: 100_003 * i }));
  async function* batches() {
    for (let i = 0; i < TAKES; i++) {
      const id = `from the backup ${i}`;
      yield good<readonly BackupEntry[]>([
        { table: 'takes', record: packTake(id, { ...sampleTake(), messages }) },
        { table: 'summaries', record: { ...sampleSummary(), id } },
      ]);
    }
  }
  const written = await writeBackup(batches(), '2026-05-04T18:20:00.000Z');
  if (!written.ok) throw new Error(written.errors[0]!.message);
  backup = Buffer.from(await written.value.file.arrayBuffer());
});

/** Puts a store into the browser, from a page of the same origin that is not the app. */
async function install(page: Page, store: ReleasedStore): Promise<void> {
  await page.goto(`${inject('address')}licences.txt`);
  await page.evaluate(async ({ version, tables }) => {
    const revive = (_key: string, value: unknown): unknown => {
      const { '#': mark, is } = (value ?? {}) as Record<string, unknown>;
      if (mark === 'undefined') return undefined;
      const column = mark === 'Float64Array' ? Float64Array : Uint8Array;
      return typeof mark === 'string' ? column.from(is as number[]) : value;
    };
    await new Promise<void>((resolve, reject) => {
      const opening = indexedDB.open('layered-phrases', version);
      opening.onupgradeneeded = () => {
        for (const { name, keyPath, indexes, records } of tables) {
          const table = opening.result.createObjectStore(name, { keyPath });
          for (const index of indexes) table.createIndex(index.name, index.keyPath);
          for (const record of records) table.put(JSON.parse(JSON.stringify(record), revive));
        }
      };
      opening.onsuccess = () => {
        opening.result.close();
        resolve();
      };
      opening.onerror = () => reject(new Error('not opened'));
    });
  }, store);
}

/** Everything that is kept, columns as lists, read from a page of the same origin that is not the app. */
async function keptIn(page: Page): Promise<Kept> {
  await page.goto(`${inject('address')}licences.txt`);
  return page.evaluate(async (tables) => {
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('layered-phrases');
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => reject(new Error('not opened'));
    });
    const found = await Promise.all(
      tables.map(
        (name) =>
          new Promise<unknown[]>((resolve) => {
            if (!database.objectStoreNames.contains(name)) return resolve([]);
            const reading = database.transaction(name).objectStore(name).getAll();
            reading.onsuccess = () =>
              resolve(
                (reading.result as { id: string }[]).map((record) =>
                  // Of these only the number counts.
                  record.id.startsWith('from the backup') ? { id: record.id } : record,
                ),
              );
          }),
      ),
    );
    database.close();
    const plain = (_key: string, value: unknown) =>
      ArrayBuffer.isView(value) ? Array.from(value as Uint8Array) : value;
    return JSON.parse(
      JSON.stringify(Object.fromEntries(tables.map((name, i) => [name, found[i]])), plain),
    ) as Kept;
  }, TABLES);
}

/** What a store holds, in the same form. */
const contentOf = (store: ReleasedStore): Kept =>
  JSON.parse(
    JSON.stringify(
      Object.fromEntries(TABLES.map((name) => [name, recordsIn(store, name)])),
      (_key, value: unknown) =>
        ArrayBuffer.isView(value) ? Array.from(value as Uint8Array) : value,
    ),
  ) as Kept;

const ofBackup = ({ id }: { readonly id: string }) => id.startsWith('from the backup');

function expectAllOf(store: ReleasedStore, kept: Kept, context: string): void {
  for (const [name, records] of Object.entries(contentOf(store)))
    expect(kept[name as keyof Kept], `${context}, ${name}`).toEqual(
      expect.arrayContaining([...records]),
    );
}

/** Installs a store, does something, and kills the browser after a while; what the next one finds. */
async function killWhile(
  store: ReleasedStore,
  begin: (page: Page) => Promise<void>,
  afterMs: number,
): Promise<Kept> {
  const profile = mkdtempSync(join(tmpdir(), 'killed-store-'));
  try {
    await inChromium(profile, async (page) => {
      await install(page, store);
      await begin(page);
      await new Promise((resolve) => setTimeout(resolve, afterMs));
    });
    return await inChromium(profile, async (page) => {
      // The app opens whatever it finds, and goes on with it.
      await page.goto(`${inject('address')}#log`);
      await page.getByTestId('take-row').first().waitFor();
      return keptIn(page);
    });
  } finally {
    rmSync(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
  }
}

/** Works with a page of a browser that is killed as soon as that is over. */
async function inChromium<T>(profile: string, work: (page: Page) => Promise<T>): Promise<T> {
  const { browser, context, kill } = await startChromium(profile);
  try {
    return await work(await context.newPage());
  } finally {
    kill();
    await browser.close().catch(() => undefined);
  }
}

async function openKept(page: Page): Promise<void> {
  await page.goto(`${inject('address')}#log/what-is-kept`);
  await page.getByTestId('save-all').waitFor();
}

/** No pad of the kit sends it. */
const NEW_NOTE = 20;

/** An own phrase and an own kit are open, each in a tab of its own, and one step away from being saved anew. */
async function openPhraseAndKit(page: Page): Promise<() => void> {
  const kitPage = await page.context().newPage();
  await kitPage.addInitScript(fakeMidiScript());
  await kitPage.addInitScript(() => window.fakeMidi.plug('kit', 'Harbour kit'));
  await kitPage.goto(`${inject('address')}#kit`);
  await connectKit(kitPage);
  await kitPage.getByTestId('kit').selectOption({ label: 'Boathouse, own' });
  await kitPage.goto(`${inject('address')}#kit/what-it-sends`);
  await kitPage.waitForFunction(
    (note) => window.fakeMidi.emit('kit', [0x99, note, 80], performance.now()),
    NEW_NOTE,
  );
  await kitPage.getByLabel(`Note ${NEW_NOTE} is`).selectOption('cowbell');
  await page.goto(`${inject('address')}#compose/own-1`);
  const tempo = page.getByLabel('Tempo, bpm');
  await tempo.waitFor();
  const mapNote = kitPage.getByRole('button', { name: 'Put it on the note map' });
  await mapNote.waitFor();
  return () => {
    // Not waited for: the pages may be gone before they answer.
    for (const pressing of [tempo.fill('97'), mapNote.click()])
      void pressing.catch(() => undefined);
  };
}
/** What the file of an own phrase or kit says. */
const saidBy = (kept: Kept, table: 'phrases' | 'kits'): Record<string, unknown>[] =>
  kept[table].map((record) => JSON.parse((record as unknown as OwnText).text) as never);

const momentsUpTo = (mostMs: number, seed: number): number[] => {
  const { share } = chance(seed);
  return Array.from({ length: KILLS }, () => mostMs * share());
};

describe.concurrent(`a browser that is killed at ${KILLS} moments`, () => {
  it('of a restore has all of the backup or nothing, and everything it had', async () => {
    for (const afterMs of momentsUpTo(600, SEED)) {
      const context = `seed ${SEED}, after ${afterMs} ms`;
      const kept = await killWhile(
        VERSION_2,
        async (page) => {
          await page.goto(`${inject('address')}#open`);
          await page
            .getByTestId('file-to-open')
            .setInputFiles({ name: 'all.gz', mimeType: 'application/gzip', buffer: backup });
          await page.getByTestId('put-back').waitFor();
          // Not waited for: the page may be gone before it answers.
          void page
            .getByTestId('put-back')
            .click()
            .catch(() => undefined);
        },
        afterMs,
      );
      expectAllOf(VERSION_2, kept, context);
      const come = kept.takes.filter(ofBackup).length;
      expect([0, TAKES], context).toContain(come);
      expect(kept.summaries.filter(ofBackup), context).toHaveLength(come);
    }
  }, 600_000);

  it('of a backup has everything it had', async () => {
    for (const afterMs of momentsUpTo(300, SEED + 1)) {
      const kept = await killWhile(
        VERSION_2,
        async (page) => {
          await openKept(page);
          void page
            .getByTestId('save-all')
            .click()
            .catch(() => undefined);
        },
        afterMs,
      );
      expectAllOf(VERSION_2, kept, `seed ${SEED + 1}, after ${afterMs} ms`);
    }
  }, 600_000);

  it('of a phrase and a kit being saved has each as it was, or as it was to be', async () => {
    const [phrase] = saidBy(contentOf(VERSION_2), 'phrases');
    const [kit] = saidBy(contentOf(VERSION_2), 'kits');
    const pad = { note: NEW_NOTE, name: 'cowbell, note 20', voice: 'cowbell', group: 'cowbell' };
    const cowbell = (kit!['pads'] as (typeof pad)[]).find(({ voice }) => voice === 'cowbell')!;
    const mapped = {
      ...kit,
      pads: [...(kit!['pads'] as object[]), { ...pad, group: cowbell.group }],
    };
    for (const afterMs of momentsUpTo(600, SEED + 3)) {
      const context = `seed ${SEED + 3}, after ${afterMs} ms`;
      const kept = await killWhile(
        VERSION_2,
        async (page) => (await openPhraseAndKit(page))(),
        afterMs,
      );
      expect([[phrase], [{ ...phrase, tempoBpm: 97 }]], context).toContainEqual(
        saidBy(kept, 'phrases'),
      );
      expect([[kit], [mapped]], context).toContainEqual(saidBy(kept, 'kits'));
    }
  }, 600_000);

  it('of a migration has everything the older version had', async () => {
    for (const afterMs of momentsUpTo(1500, SEED + 2)) {
      const kept = await killWhile(
        VERSION_1,
        async (page) => {
          await page.goto(inject('address'), { waitUntil: 'commit' });
        },
        afterMs,
      );
      expectAllOf(VERSION_1, kept, `seed ${SEED + 2}, after ${afterMs} ms`);
    }
  }, 600_000);
});
