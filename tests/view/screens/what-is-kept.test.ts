import { afterEach, describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { FolderBackup } from '../../../src/practice/keeping/folder-backup.svelte';
import type { Folder } from '../../../src/store/backup/backup-folder';
import { writeTake } from '../../../src/take/take-json';
import { DraftCheck } from '../../../src/phrase/check/draft-check';
import { draftOf } from '../../../src/phrase/model/phrase-draft';
import { cleanup } from 'vitest-browser-svelte';
import { mountShell as mountAnother } from '../mount-shell';
import { fillLog, simulatedTake } from '../sample-takes';
import type { StubParts } from '../stub-parts';

const HASH = '#log/what-is-kept';
/** Where every file is opened. */
const OPEN = '#open';
afterEach(() => vi.restoreAllMocks());

/** The app on a store of its own, in place of the one that was there. */
const mountShell: typeof mountAnother = (...args) => {
  cleanup();
  return mountAnother(...args);
};

/** What is handed to the player to save, from now on. */
function savedFiles(): Blob[] {
  const saved: Blob[] = [];
  vi.spyOn(URL, 'createObjectURL').mockImplementation((file) => {
    saved.push(file as Blob);
    return 'about:blank';
  });
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(() => undefined);
  return saved;
}

async function choose(content: BlobPart, name: string): Promise<void> {
  const input = page.getByLabelText(/^A file/);
  await expect.element(input).toBeEnabled();
  await input.upload(new File([content], name));
}

const preview = page.getByTestId('restore-preview');
const problem = page.getByRole('main').getByRole('alert');

/** A backup of a log with two takes and a phrase "Ebb". */
async function backup(phraseTempo = 90): Promise<Blob> {
  const parts = await mountShell(HASH, async (parts) => {
    await fillLog(parts);
    await addEbb(parts, phraseTempo);
  });
  const saved = await parts.backups.save('2026-11-29T18:20:00.000Z');
  if (!saved.ok) throw new Error(saved.errors[0]!.message);
  return saved.value.file;
}

async function addEbb({ library }: StubParts, tempoBpm: number): Promise<void> {
  const { phrase } = library.find('quay-steps')!;
  const ebb = { ...phrase, title: 'Ebb', tempoBpm };
  await library.save('own-ebb', new DraftCheck(draftOf(ebb)));
}

describe('what is kept', () => {
  it('is reached from the log, which says whether something cannot be read', async () => {
    await mountShell('#log', ({ damaged }) =>
      damaged.add({ table: 'takes', key: 'b', record: null }),
    );
    await expect.element(page.getByText('1 entry cannot be read.')).toBeVisible();
    await page.getByTestId('to-what-is-kept').click();
    await expect.element(page.getByRole('heading', { name: 'What is kept' })).toHaveFocus();
    await expect.element(page.getByText('Take: "b"')).toBeVisible();
  });

  it('is saved as one file, and put back where nothing is', async () => {
    const saved = savedFiles();
    const first = await mountShell(HASH, async (parts) => {
      await fillLog(parts);
      await addEbb(parts, 90);
    });
    const before = await first.store.list();
    await page.getByTestId('save-all').click();
    await expect
      .element(page.getByTestId('saved'))
      .toHaveTextContent(/^what-is-kept-.*z\.gz holds 5 entries\.$/);
    expect(saved).toHaveLength(1);

    const second = await mountShell(OPEN);
    await choose(saved[0]!, 'all.gz');
    await expect.element(preview).toHaveTextContent(/Takes: 2 new\. ?Phrases: 1 new\./);
    await page.getByTestId('put-back').click();
    await expect.element(page.getByTestId('opening')).toHaveTextContent(/^It is all back\./);
    expect(await second.store.list()).toEqual(before);
    expect(second.takes.summaries).toEqual(before.summaries);
    expect(second.library.find('own-ebb')?.phrase.title).toBe('Ebb');
  });

  it('says so when all of a backup is here', async () => {
    const parts = await mountShell(OPEN, async (parts) => void (await fillLog(parts)));
    const saved = await parts.backups.save('2026-11-29T18:20:00.000Z');
    await choose(saved.ok ? saved.value.file : '', 'all.gz');
    await expect.element(preview).toHaveTextContent(/Takes: 2 here already\./);
    await preview.getByRole('button', { name: 'Close' }).click();
    await expect.element(preview).not.toBeInTheDocument();
  });

  it.each([
    ['keep both', ['Ebb', 'Ebb, 2']],
    ['put those of the backup in the place', ['Ebb']],
  ])('asks about a phrase that is another here: %s', async (answer, titles) => {
    const file = await backup(120);
    const parts = await mountShell(OPEN, (made) => addEbb(made, 90));
    await choose(file, 'all.gz');
    await expect.element(preview.getByText(/“Ebb”/)).toBeVisible();
    await preview.getByLabelText(answer).click();
    await page.getByTestId('put-back').click();
    await expect.element(page.getByTestId('opening')).toHaveTextContent(/^It is all back\./);
    const own = parts.library.phrases.filter((one) => one.own);
    expect(own.map(({ phrase }) => phrase.title)).toEqual(titles);
    expect(own.map(({ phrase }) => phrase.tempoBpm)).toEqual(
      titles.length === 2 ? [90, 120] : [120],
    );
  });

  it('says what is wrong with a file, and changes nothing', async () => {
    await mountShell(OPEN);
    await choose('hello', 'letter.txt');
    await expect.element(problem).toHaveTextContent(/^letter\.txt: It is nothing/);
    const file = await backup();
    const parts = await mountShell(OPEN);
    await choose(file.slice(0, file.size - 1), 'cut.gz');
    await expect.element(problem).toHaveTextContent(/damaged or cut off/);
    expect(parts.takes.summaries).toEqual([]);
  });

  it('says that nothing was put back when the store fails', async () => {
    const file = await backup();
    await mountShell(OPEN);
    await choose(file, 'all.gz');
    await expect.element(page.getByTestId('put-back')).toBeVisible();
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    await page.getByTestId('put-back').click();
    await expect.element(problem).toHaveTextContent(/^Nothing was put back\. The disk is full/);
  });
});

describe('one take, downloaded as JSON', () => {
  it('opens in the log, once, after what is in it was shown', async () => {
    const parts = await mountShell(OPEN);
    const take = simulatedTake(parts.session.entry!, '2026-11-20T18:20:00.000Z');
    for (const words of [/^The take is in the log now\./, /^This take is in the log already\./]) {
      await choose(writeTake(take), 'take.json');
      await expect
        .element(page.getByTestId('opened'))
        .toHaveTextContent(/A take of “Quay Steps”, layer \d .*20 Nov 2026/);
      await page.getByTestId('keep-take').click();
      await expect.element(page.getByTestId('figure-spread')).toBeVisible();
      await expect.element(page.getByTestId('notice').last()).toHaveTextContent(words);
      expect(parts.takes.summaries).toHaveLength(1);
      expect(location.hash).toBe(`#log/${parts.takes.summaries[0]!.id}`);
      parts.route.go('open');
    }
  });

  it('is told by place when it is damaged', async () => {
    await mountShell(OPEN);
    await choose('{"take":1,"startedAt":7}', 'take.json');
    await expect.element(problem).toHaveTextContent(/^take\.json, "startedAt": /);
  });

  it('is told when its phrase cannot be read', async () => {
    const parts = await mountShell(OPEN);
    const take = simulatedTake(parts.session.entry!, '2026-11-20T18:20:00.000Z');
    await choose(writeTake({ ...take, phraseText: '{}' }), 'take.json');
    await expect.element(problem).toHaveTextContent(/cannot be judged/);
  });
});

describe('entries that cannot be read', () => {
  it('are named, and can be removed', async () => {
    const { damaged } = await mountShell(HASH, async ({ damaged, store }) => {
      await store.list();
      damaged.add({ table: 'phrases', key: 'own-1', record: { id: 'own-1', title: 'Ebb' } });
      damaged.add({ table: 'takes', key: 'b', record: null });
    });
    const section = page.getByTestId('damaged');
    await expect.element(section.getByText('Phrase: Ebb')).toBeVisible();
    await expect.element(section.getByText('Take: "b"')).toBeVisible();
    await expect
      .element(page.getByTestId('notice'))
      .toHaveTextContent(/^2 entries of what is kept/);
    await section.getByRole('button', { name: 'Remove' }).first().click();
    await section.getByRole('button', { name: 'Remove' }).first().click();
    await expect.poll(() => damaged.all.map(({ key }) => key)).toEqual(['b']);
  });
});

describe('backups into a folder', () => {
  it('are offered only where the browser can write into one', async () => {
    await mountShell(HASH);
    await expect.element(page.getByTestId('save-all')).toBeVisible();
    expect(page.getByRole('heading', { name: 'Automatic backup' }).query()).toBeNull();
  });

  it('say where they go, when the last was written, and why not', async () => {
    const file = { createWritable: () => Promise.reject(new DOMException('no', 'NotFoundError')) };
    const granted = () => Promise.resolve<PermissionState>('granted');
    const folder: Folder = {
      name: 'Attic',
      queryPermission: granted,
      requestPermission: granted,
      getFileHandle: () => Promise.resolve(file),
    };
    await mountShell(HASH, (parts) => {
      const folderBackup = new FolderBackup({
        backups: parts.backups,
        pick: () => Promise.resolve(folder),
        isPlaying: () => false,
        stored: () => Promise.resolve(undefined),
        remember: () => Promise.resolve(),
      });
      Object.assign(parts, { folderBackup });
    });
    await page.getByTestId('choose-folder').click();
    await expect.element(page.getByTestId('folder-told')).toHaveTextContent(/“Attic”\.$/);
    await expect.element(problem).toHaveTextContent(/is not there any more/);
  });
});
