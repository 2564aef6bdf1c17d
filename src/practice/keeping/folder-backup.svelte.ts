import {
  isAllowed,
  rememberFolder,
  storedFolder,
  writeInFolder,
  type Folder,
} from '../../store/backup/backup-folder';
import { isoNow } from '../iso-now';
import type { Backups } from './backups';

/** The file of a day: what is saved later on that day takes its place, and no other file is touched. */
const dayFileName = (at: string): string => `what-is-kept-${at.slice(0, 10)}.gz`;

/** How long after a take the backup is written, ms. Chosen: the player looks at the take, or plays the next one. */
const AFTER_MS = 20_000;
/** A backup that was not written is tried again after twice as long each time, up to so long, ms. Chosen. */
const MOST_AFTER_MS = 3_600_000;

export type PickFolder = (wish: { mode: 'readwrite' }) => Promise<Folder>;

export interface FolderBackupDependencies {
  readonly backups: Pick<Backups, 'save'>;
  /** The browser's own way to choose a folder; undefined where it has none. */
  readonly pick: PickFolder | undefined;
  /** Whether somebody plays: then nothing is packed. */
  readonly isPlaying: () => boolean;
  readonly stored?: () => Promise<Folder | undefined>;
  readonly remember?: (folder: Folder | undefined) => Promise<unknown>;
}

/** Backups by themselves, into a folder the player has chosen: one file a day on which something was played. */
export class FolderBackup {
  readonly #dependencies: Required<FolderBackupDependencies>;
  #folder: Folder | undefined = $state.raw();
  #isAllowed = $state(false);
  #problem: string | undefined = $state();
  #lastAt: string | undefined = $state();
  #timer: ReturnType<typeof setTimeout> | undefined;
  #againAfterMs = AFTER_MS;
  #writing: Promise<void> | undefined;

  constructor(dependencies: FolderBackupDependencies) {
    this.#dependencies = { stored: storedFolder, remember: rememberFolder, ...dependencies };
  }

  /** Whether this browser can write into a folder at all. */
  get isPossible(): boolean {
    return this.#dependencies.pick !== undefined;
  }
  get folderName(): string | undefined {
    return this.#folder?.name;
  }
  /** Whether the browser asks the player before it writes. */
  get mustBeAllowed(): boolean {
    return this.#folder !== undefined && !this.#isAllowed;
  }
  /** Why the last backup was not written, if it was not. */
  get problem(): string | undefined {
    return this.#problem;
  }
  /** When the last was written into the folder since the page was opened, ISO 8601. */
  get lastAt(): string | undefined {
    return this.#lastAt;
  }

  /** Looks whether a folder was chosen before, once the page is there. */
  async load(): Promise<void> {
    if (!this.isPossible) return;
    this.#folder = await this.#dependencies.stored();
    try {
      this.#isAllowed = this.#folder !== undefined && (await isAllowed(this.#folder));
    } catch {
      this.#isAllowed = false;
    }
  }

  /** Lets the player choose a folder, and writes the first backup. Only by a press: the browser asks. */
  async choose(): Promise<void> {
    try {
      const folder = await this.#dependencies.pick?.({ mode: 'readwrite' });
      if (!folder) return;
      this.#folder = folder;
      this.#isAllowed = true;
      this.#lastAt = undefined;
      await this.#dependencies.remember(folder);
    } catch (error) {
      // The player has thought better of it.
      if (error instanceof Error && error.name === 'AbortError') return;
      this.#problem = 'The browser lets this page write into no folder like that. Choose another.';
      return;
    }
    await this.write();
  }

  /** Asks for the folder again, and writes. Only by a press. */
  async allow(): Promise<void> {
    try {
      const state = await this.#folder?.requestPermission({ mode: 'readwrite' });
      this.#isAllowed = state === 'granted';
    } catch {
      this.#isAllowed = false;
    }
    if (this.#isAllowed) await this.write();
    else this.#problem = 'Nothing is written into the folder as long as the browser may not.';
  }

  /** No more backups into it; what stands there stays. */
  async forget(): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#folder = undefined;
    this.#problem = undefined;
    await this.#dependencies.remember(undefined);
  }

  /** Something has come: it is written down in a while, when nobody plays. */
  later(): void {
    this.#writeAfter(AFTER_MS);
  }

  #writeAfter(ms: number): void {
    if (!this.#folder || !this.#isAllowed) return;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#timer = undefined;
      if (this.#dependencies.isPlaying()) this.later();
      else void this.write();
    }, ms);
  }

  /** Writes a backup now; of two at once the second waits for the first. */
  async write(): Promise<void> {
    while (this.#writing) await this.#writing;
    const writing = this.#write().finally(() => (this.#writing = undefined));
    this.#writing = writing;
    await writing;
  }

  async #write(): Promise<void> {
    const folder = this.#folder;
    if (!folder) return;
    const at = isoNow();
    const saved = await this.#dependencies.backups.save(at);
    const written = saved.ok
      ? await writeInFolder(folder, dayFileName(at), saved.value.file)
      : saved;
    if (written.ok) {
      this.#problem = undefined;
      this.#lastAt = at;
      this.#againAfterMs = AFTER_MS;
      return;
    }
    const { code, message } = written.errors[0]!;
    if (code === 'NOT_ALLOWED') this.#isAllowed = false;
    this.#problem = message;
    this.#writeAfter(this.#againAfterMs);
    this.#againAfterMs = Math.min(MOST_AFTER_MS, 2 * this.#againAfterMs);
  }
}
