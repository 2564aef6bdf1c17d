import type { DraftCheck } from '../../phrase/check/draft-check';
import { writeDraft } from '../../phrase/file/write-phrase';
import type { Library } from '../library.svelte';
import type { UnsavedEdits } from './unsaved-edits';

export interface AutosaveParts {
  readonly library: Pick<Library, 'save' | 'storedText'>;
  readonly unsaved: Pick<UnsavedEdits, 'note' | 'forget' | 'drop'>;
  /** Told where another tab has changed the phrase: nothing was written over it. */
  readonly onChangedElsewhere: () => void;
}

/** How long after an edit it is kept, ms. Chosen, not measured: several letters typed are one writing. */
const KEEP_AFTER_MS = 250;

/** Keeps a phrase on this machine as it is written: noted down at once, in the library a moment later. */
export class Autosave {
  readonly #parts: AutosaveParts;
  #id: string = $state()!;
  #kept: boolean = $state(false);
  #problem: string | undefined = $state();
  #due: DraftCheck | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #writing: Promise<void> = Promise.resolve();

  /** `kept` says whether the library has the phrase already. */
  constructor(id: string, kept: boolean, parts: AutosaveParts) {
    this.#id = id;
    this.#parts = parts;
    this.#kept = kept;
  }

  /** Of the phrase it is kept as. */
  get id(): string {
    return this.#id;
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
    this.#note(check);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#keepNow(check), KEEP_AFTER_MS);
  }

  /** Keeps it as another phrase from now on: nothing of it is left under the id it had. */
  keepAs(id: string, check: DraftCheck): void {
    const before = this.#id;
    this.#id = id;
    this.keepSoon(check);
    this.#parts.unsaved.drop(before);
  }

  /** Keeps what is not kept yet, now. */
  async flush(): Promise<void> {
    const id = this.#id;
    if (this.#due) this.#keepNow(this.#due);
    await this.#writing;
    if (this.#id !== id) await this.flush();
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
      const stored = await library.save(this.#id, check);
      const problem = stored.ok ? undefined : stored.errors[0]!;
      if (problem?.code === 'CHANGED') {
        this.#parts.onChangedElsewhere();
        return;
      }
      this.#problem = problem?.message;
      if (stored.ok) unsaved.forget(this.#id, writeDraft(check.draft));
    });
  }

  #note({ draft }: DraftCheck): void {
    const { library, unsaved } = this.#parts;
    const base = library.storedText(this.#id);
    unsaved.note({ id: this.#id, text: writeDraft(draft), base });
  }
}
