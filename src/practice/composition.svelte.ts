import { phraseUpTo } from '../phrase/edit/phrase-up-to';
import { checkPhrase } from '../phrase/file/parse-phrase';
import type { Phrase } from '../phrase/model/phrase';
import type { PhraseError } from '../phrase/model/phrase-error';
import type { PhraseFile } from '../phrase/model/phrase-file';
import { phraseText, writePhrase } from '../phrase/file/write-phrase';
import { layerKeys, type KeyedFile, type LayerKeys } from './layer-keys';
import type { Library, LibraryPhrase } from './library.svelte';
import type { UnsavedEdits } from './unsaved-edits';
import { clamp } from '../time/whole';

export interface CompositionParts {
  readonly library: Pick<Library, 'save'>;
  readonly unsaved: UnsavedEdits;
  /** Told the id once a phrase is in the library that was not there before. */
  readonly onKept?: (id: string) => void;
}

interface Snapshot extends KeyedFile {
  readonly layer: number;
}

/** A phrase at one of its layers (1-based). */
export interface ShownLayer {
  readonly phrase: Phrase;
  readonly layer: number;
  /** Whether it is the layer that is edited, as it is written now. */
  readonly current: boolean;
}

/** How long after an edit it is kept, ms. Chosen, not measured: several letters typed are one writing. */
const KEEP_AFTER_MS = 250;

/**
 * A phrase being written: the file as it stands, right or not, every state it had, and the last state that was a
 * phrase, which is what sounds. Every edit is kept on this machine by itself.
 */
export class Composition {
  readonly id: string;
  readonly #parts: CompositionParts;
  #now: Snapshot = $state.raw()!;
  #past: readonly Snapshot[] = $state.raw([]);
  #future: readonly Snapshot[] = $state.raw([]);
  #errors: readonly PhraseError[] = $state.raw([]);
  #good: Phrase | undefined = $state.raw();
  #problem: string | undefined = $state();
  #kept: boolean = $state(false);
  /** Until it has been told. */
  #onKept: ((id: string) => void) | undefined;
  #joins: string | undefined;
  #lastKey = 0;
  readonly #freshKey = () => ++this.#lastKey;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #writing: Promise<void> = Promise.resolve();
  /** Worked out with each edit, not derived: a composition outlives the screen that opened it. */
  #shown: ShownLayer | undefined = $state.raw();

  /** `kept` says whether the library has the phrase already. */
  constructor(id: string, file: PhraseFile, kept: boolean, parts: CompositionParts) {
    this.id = id;
    this.#parts = parts;
    this.#kept = kept;
    if (!kept) this.#onKept = parts.onKept;
    this.#take({
      file,
      layer: file.layers.length,
      keys: layerKeys(file, undefined, this.#freshKey),
    });
  }

  get file(): PhraseFile {
    return this.#now.file;
  }
  /** The layer that is edited, 1-based. */
  get layer(): number {
    return this.#now.layer;
  }
  /** What each layer and change is known by, wherever it is moved, and once an edit is taken back. */
  get keys(): readonly LayerKeys[] {
    return this.#now.keys;
  }
  /** What is wrong with the file as it stands. */
  get errors(): readonly PhraseError[] {
    return this.#errors;
  }
  /** The last state that was a phrase. */
  get good(): Phrase | undefined {
    return this.#good;
  }
  /** The layer that is edited, or what is nearest to it and can be shown. */
  get shown(): ShownLayer | undefined {
    return this.#shown;
  }
  /** Why an edit is only in memory, if so. */
  get problem(): string | undefined {
    return this.#problem;
  }
  /** Whether the library has it: not before the first edit of a new phrase. */
  get kept(): boolean {
    return this.#kept;
  }
  get canUndo(): boolean {
    return this.#past.length > 0;
  }
  get canRedo(): boolean {
    return this.#future.length > 0;
  }

  /** What can be practised: the last state that was a phrase. */
  get entry(): LibraryPhrase | undefined {
    const phrase = this.#good;
    return phrase && { id: this.id, phrase, text: writePhrase(phrase), own: true };
  }

  chooseLayer(layer: number): void {
    this.#joins = undefined;
    this.#now = { ...this.#now, layer: within(layer, this.file) };
    this.#shown = this.#show();
  }

  /**
   * Makes an edit, and goes to a layer (1-based) with it. Edits in a row that name the same thing they join, such as
   * letters typed into one field, are undone as one, up to `settle`.
   */
  edit(
    change: (file: PhraseFile) => PhraseFile,
    { layer = this.layer, joins }: { layer?: number; joins?: string | undefined } = {},
  ): void {
    const file = change(this.file);
    if (file === this.file || phraseText(file) === phraseText(this.file)) return;
    const start = joins === undefined || joins !== this.#joins ? undefined : this.#past.at(-1);
    if (!start) this.#past = [...this.#past, this.#now];
    this.#joins = joins;
    this.#future = [];
    if (start && phraseText(file) === phraseText(start.file)) {
      this.#past = this.#past.slice(0, -1);
      this.#joins = undefined;
    }
    this.#take({
      file,
      layer: within(layer, file),
      keys: layerKeys(file, this.#now, this.#freshKey),
    });
    this.#keepSoon();
  }

  /** Ends what is typed in a row: the next edit is a step of its own. */
  settle(): void {
    this.#joins = undefined;
  }

  undo(): void {
    const before = this.#past.at(-1);
    if (!before) return;
    this.#past = this.#past.slice(0, -1);
    this.#future = [...this.#future, this.#now];
    this.#goTo(before);
  }

  redo(): void {
    const after = this.#future.at(-1);
    if (!after) return;
    this.#future = this.#future.slice(0, -1);
    this.#past = [...this.#past, this.#now];
    this.#goTo(after);
  }

  /** Keeps what is not kept yet, now. */
  async flush(): Promise<void> {
    if (this.#timer !== undefined) this.#keep();
    await this.#writing;
  }

  /** Keeps a new phrase that nobody has edited yet. */
  async keep(): Promise<void> {
    if (!this.#kept) this.#keep();
    await this.flush();
  }

  #goTo(snapshot: Snapshot): void {
    this.#joins = undefined;
    this.#take(snapshot);
    this.#keepSoon();
  }

  #take(snapshot: Snapshot): void {
    this.#now = snapshot;
    const checked = checkPhrase(snapshot.file);
    this.#errors = checked.ok ? [] : checked.errors;
    if (checked.ok) this.#good = checked.value;
    this.#shown = this.#show();
  }

  #show(): ShownLayer | undefined {
    const { file, layer } = this.#now;
    const phrase = phraseUpTo(file, layer);
    if (phrase) return { phrase, layer, current: true };
    const good = this.#good;
    if (good) return { phrase: good, layer: Math.min(layer, good.layers.length), current: false };
    for (let below = layer - 1; below > 0; below--) {
      const part = phraseUpTo(file, below);
      if (part) return { phrase: part, layer: below, current: false };
    }
    return undefined;
  }

  #keepSoon(): void {
    this.#kept = true;
    this.#parts.unsaved.note(this.id, phraseText(this.file));
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#keep(), KEEP_AFTER_MS);
  }

  #keep(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#kept = true;
    const { file } = this;
    this.#writing = this.#writing.then(async () => {
      const saving = this.#parts.library.save(this.id, file);
      this.#onKept?.(this.id);
      this.#onKept = undefined;
      this.#problem = await saving;
      if (this.#problem === undefined) this.#parts.unsaved.forget(this.id, phraseText(file));
    });
  }
}

const within = (layer: number, file: PhraseFile): number => clamp(layer, 1, file.layers.length);
