import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { deleteDB } from 'idb';
import { FolderBackup } from '../../../src/practice/keeping/folder-backup.svelte';
import {
  rememberFolder,
  storedFolder,
  writeInFolder,
  type Folder,
} from '../../../src/store/backup/backup-folder';
import { bad, good } from '../../../src/time/result';
import { storeProblem } from '../../../src/store/store-problem';
import { ON_A_STILL_CLOCK } from '../../still-clock';

beforeEach(() => {
  vi.useFakeTimers({
    now: new Date('2026-11-29T18:20:00.000Z'),
    toFake: ['setTimeout', 'clearTimeout', 'Date'],
  });
});
afterEach(() => vi.useRealTimers());

/** What is done to write a file, in this order. */
const STEPS = ['getFileHandle', 'createWritable', 'write', 'close'] as const;

/** A folder in memory. */
function stubFolder(permission: PermissionState = 'granted') {
  const files = new Map<string, string>();
  const state = {
    permission,
    failsAt: undefined as (typeof STEPS)[number] | undefined,
    /** The name of the error there; without one nothing is answered. */
    fails: undefined as string | undefined,
  };
  const step = async (name: (typeof STEPS)[number]) => {
    if (state.failsAt !== name) return;
    if (state.fails === undefined) await new Promise(() => undefined);
    throw new DOMException('no', state.fails);
  };
  const folder: Folder = {
    name: 'Attic',
    queryPermission: () => Promise.resolve(state.permission),
    requestPermission: () => Promise.resolve((state.permission = 'granted')),
    async getFileHandle(name) {
      await step('getFileHandle');
      return {
        async createWritable() {
          await step('createWritable');
          let content: Blob | undefined;
          return {
            async write(blob) {
              await step('write');
              content = blob;
            },
            async close() {
              await step('close');
              files.set(name, await content!.text());
            },
            abort: () => Promise.resolve(),
          };
        },
      };
    },
  };
  return { folder, files, state };
}

function started(stub = stubFolder(), isStored = true) {
  const playing = { now: false };
  const saves: string[] = [];
  let kept = isStored ? stub.folder : undefined;
  const folderBackup = new FolderBackup({
    backups: {
      save: async (at) => {
        saves.push(at);
        return good({ file: new Blob([`saved ${saves.length}`]), entries: 1, leftOut: 0 });
      },
    },
    pick: () => Promise.resolve(stub.folder),
    isPlaying: () => playing.now,
    stored: () => Promise.resolve(kept),
    remember: async (folder) => void (kept = folder),
  });
  return { ...stub, folderBackup, playing, saves, kept: () => kept };
}
const FILE = 'what-is-kept-2026-11-29.gz';

describe('backups into a folder', () => {
  it('are written a while after a take, one file a day', async () => {
    const { folderBackup, files } = started();
    await folderBackup.load();
    folderBackup.later();
    await vi.advanceTimersByTimeAsync(19_999);
    expect([...files]).toEqual([]);
    await vi.advanceTimersByTimeAsync(1);
    await expect.poll(() => [...files], ON_A_STILL_CLOCK).toEqual([[FILE, 'saved 1']]);
    folderBackup.later();
    await vi.advanceTimersByTimeAsync(20_000);
    await expect.poll(() => [...files], ON_A_STILL_CLOCK).toEqual([[FILE, 'saved 2']]);
    vi.setSystemTime(new Date('2026-11-30T08:00:00.000Z'));
    await folderBackup.write();
    expect([...files.keys()]).toEqual([FILE, 'what-is-kept-2026-11-30.gz']);
    expect(folderBackup.lastAt).toBe('2026-11-30T08:00:00.000Z');
  });

  it('wait until nobody plays', async () => {
    const { folderBackup, playing, saves } = started();
    await folderBackup.load();
    playing.now = true;
    folderBackup.later();
    await vi.advanceTimersByTimeAsync(60_000);
    expect(saves).toEqual([]);
    playing.now = false;
    await vi.advanceTimersByTimeAsync(20_000);
    expect(saves).toHaveLength(1);
  });

  it('begin with the choice of a folder, which is remembered until it is forgotten', async () => {
    const { folderBackup, files, kept, folder } = started(stubFolder(), false);
    await folderBackup.load();
    expect(folderBackup.folderName).toBeUndefined();
    await folderBackup.choose();
    expect([folderBackup.folderName, kept(), files.size]).toEqual(['Attic', folder, 1]);
    await folderBackup.forget();
    expect([folderBackup.folderName, kept(), files.size]).toEqual([undefined, undefined, 1]);
    folderBackup.later();
    await vi.advanceTimersByTimeAsync(60_000);
    expect(files.size).toBe(1);
  });

  it('tell of another folder only what was written into that one', async () => {
    const other = stubFolder();
    const picked = [stubFolder().folder, other.folder];
    const folderBackup = new FolderBackup({
      backups: {
        save: () => Promise.resolve(good({ file: new Blob(['all']), entries: 1, leftOut: 0 })),
      },
      pick: () => Promise.resolve(picked.shift()!),
      isPlaying: () => false,
      stored: () => Promise.resolve(undefined),
      remember: () => Promise.resolve(),
    });
    await folderBackup.choose();
    expect(folderBackup.lastAt).toBe('2026-11-29T18:20:00.000Z');
    Object.assign(other.state, { failsAt: 'close', fails: 'QuotaExceededError' });
    await folderBackup.choose();
    expect([folderBackup.lastAt, folderBackup.problem]).toEqual([
      undefined,
      expect.stringContaining('could not be written'),
    ]);
  });

  it('wait for a press where the browser asks first', async () => {
    const { folderBackup, files } = started(stubFolder('prompt'));
    await folderBackup.load();
    expect(folderBackup.mustBeAllowed).toBe(true);
    folderBackup.later();
    await vi.advanceTimersByTimeAsync(60_000);
    expect(files.size).toBe(0);
    await folderBackup.allow();
    expect([folderBackup.mustBeAllowed, files.size]).toEqual([false, 1]);
  });

  it.each([
    ['NotAllowedError', /does not let this page write/, true],
    ['NotFoundError', /is not there any more/, false],
    ['QuotaExceededError', /could not be written/, false],
  ])('say why one was not written, and go on: %s', async (name, sentence, mustBeAllowed) => {
    const { folderBackup, files, state } = started();
    await folderBackup.load();
    for (const step of STEPS) {
      files.clear();
      state.fails = name;
      state.failsAt = step;
      await folderBackup.write();
      expect(folderBackup.problem).toMatch(sentence);
      expect([folderBackup.mustBeAllowed, files.size]).toEqual([mustBeAllowed, 0]);
      state.failsAt = undefined;
      await folderBackup.write();
      expect([folderBackup.problem, files.size]).toEqual([undefined, 1]);
    }
  });

  it.each(STEPS)('say so when the folder does not answer at %s, and go on', async (step) => {
    const { folderBackup, files, state } = started();
    await folderBackup.load();
    state.failsAt = step;
    const writing = folderBackup.write();
    await vi.advanceTimersByTimeAsync(120_000);
    await writing;
    expect([folderBackup.problem, files.size]).toEqual([
      expect.stringContaining('does not answer'),
      0,
    ]);
    state.failsAt = undefined;
    await folderBackup.write();
    expect([folderBackup.problem, files.size]).toEqual([undefined, 1]);
  });

  it('that fail for two seconds are written after all, without another take', async () => {
    const { folderBackup, files, state } = started();
    await folderBackup.load();
    state.failsAt = 'close';
    state.fails = 'QuotaExceededError';
    folderBackup.later();
    await vi.advanceTimersByTimeAsync(20_000);
    await expect.poll(() => folderBackup.problem, ON_A_STILL_CLOCK).toMatch(/could not be written/);
    await vi.advanceTimersByTimeAsync(2000);
    state.failsAt = undefined;
    await vi.advanceTimersByTimeAsync(18_000);
    await expect.poll(() => [...files.keys()], ON_A_STILL_CLOCK).toEqual([FILE]);
    expect([folderBackup.problem, vi.getTimerCount()]).toEqual([undefined, 0]);
  });

  it('are tried less and less often where the folder is gone, and not without permission', async () => {
    const { folderBackup, saves, state } = started();
    await folderBackup.load();
    state.failsAt = 'getFileHandle';
    state.fails = 'NotFoundError';
    folderBackup.later();
    // After 20 s, then 20, 40, 80, 160 s after the one before.
    for (const [ms, count] of [
      [20_000, 1],
      [20_000, 2],
      [39_999, 2],
      [1, 3],
      [80_000, 4],
      [160_000, 5],
    ] as const) {
      await vi.advanceTimersByTimeAsync(ms);
      expect(saves).toHaveLength(count);
    }
    await vi.advanceTimersByTimeAsync(24 * 3_600_000);
    const often = saves.length;
    expect(often).toBeGreaterThan(24);
    await vi.advanceTimersByTimeAsync(3_600_000);
    expect(saves).toHaveLength(often + 1);
    state.fails = 'NotAllowedError';
    await vi.advanceTimersByTimeAsync(3_600_000);
    await vi.advanceTimersByTimeAsync(24 * 3_600_000);
    expect(saves).toHaveLength(often + 2);
  });

  it('say so when what is kept cannot be read', async () => {
    const { folder } = stubFolder();
    const folderBackup = new FolderBackup({
      backups: { save: () => Promise.resolve(bad(storeProblem('LOST'))) },
      pick: () => Promise.resolve(folder),
      isPlaying: () => false,
      stored: () => Promise.resolve(folder),
      remember: () => Promise.resolve(),
    });
    await folderBackup.load();
    await folderBackup.write();
    expect(folderBackup.problem).toBe(storeProblem('LOST').message);
  });

  it('change nothing when the player chooses none after all', async () => {
    const folderBackup = new FolderBackup({
      backups: { save: () => Promise.reject(new Error('not asked for')) },
      pick: () => Promise.reject(new DOMException('no', 'AbortError')),
      isPlaying: () => false,
      stored: () => Promise.resolve(undefined),
      remember: () => Promise.reject(new Error('not asked for')),
    });
    await folderBackup.load();
    await folderBackup.choose();
    expect([folderBackup.folderName, folderBackup.problem]).toEqual([undefined, undefined]);
  });
});

describe('a folder of the browser’s own', () => {
  it('is remembered over a reload, and written to', async () => {
    vi.useRealTimers();
    const name = 'folder-under-test';
    await deleteDB(name);
    const folder = (await navigator.storage.getDirectory()) as unknown as Folder;
    await rememberFolder(folder, name);
    const again = await storedFolder(name);
    const written = await writeInFolder(again!, FILE, new Blob(['all of it']));
    expect(written).toEqual({ ok: true, value: undefined });
    const handle = await (folder as unknown as FileSystemDirectoryHandle).getFileHandle(FILE);
    expect(await (await handle.getFile()).text()).toBe('all of it');
    await rememberFolder(undefined, name);
    expect(await storedFolder(name)).toBeUndefined();
  });
});
