import type { DraftCheck } from '../../phrase/check/draft-check';
import { writeDraft } from '../../phrase/file/write-phrase';
import type { Library } from '../library.svelte';
import type { UnsavedEdits } from './unsaved-edits';

export interface AutosaveParts {
  readonly library: Pick<Library, 'save'>;
  readonly unsaved: UnsavedEdits;
  /** Told the id once a phrase is in the library that was not there before. */
  readonly onKept?: (id: string) => void;
}

/** How long after an edit it is kept, ms. Chosen, not measured: several letters typed are one writing. */
const KEEP_AFTER_MS = 250;

/** Keeps a phrase on this machine as it is written: noted down at once, in the library a moment later. */
export class Autosave {
  readonly #id: string;
  readonly #parts: AutosaveParts;
  #kept: boolean = $state(false);
  #problem: string | undefined = $state();
  /** Until it has been told. */
  #onKept: ((id: string) => void) | undefined;
  #due: DraftCheck | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #writing: Promise<void> = Promise.resolve();

  /** `kept` says whether the library has the phrase already. */
  constructor(id: string, kept: boolean, parts: AutosaveParts) {
    this.#id = id;
    this.#parts = parts;
    this.#kept = kept;
    if (!kept) this.#onKept = parts.onKept;
  }

  /** Whether the library has it: not before the first edit of a new phrase. */
  get kept(): boolean {
    return this.#kept;
  }
  /** Why an edit is only in memory, if so. */
  get problem(): string | undefined {
    return this.#problem;
  }

  /** Keeps it soon, and at the next start where the page is left before that. */
  keepSoon(check: DraftCheck): void {
    this.#kept = true;
    this.#due = check;
    this.#parts.unsaved.note(this.#id, writeDraft(check.draft));
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#keepNow(check), KEEP_AFTER_MS);
  }

  /** Keeps what is not kept yet, now. */
  async flush(): Promise<void> {
    if (this.#due) this.#keepNow(this.#due);
    await this.#writing;
  }

  /** Keeps a new phrase that nobody has edited yet. */
  async keep(check: DraftCheck): Promise<void> {
    if (!this.#kept) this.#keepNow(check);
    await this.flush();
  }

  #keepNow(check: DraftCheck): void {
    clearTimeout(this.#timer);
    this.#due = undefined;
    this.#kept = true;
    const { library, unsaved } = this.#parts;
    this.#writing = this.#writing.then(async () => {
      const saving = library.save(this.#id, check);
      this.#onKept?.(this.#id);
      this.#onKept = undefined;
      const stored = await saving;
      this.#problem = stored.ok ? undefined : stored.errors[0]!.message;
      if (stored.ok) unsaved.forget(this.#id, writeDraft(check.draft));
    });
  }
}
