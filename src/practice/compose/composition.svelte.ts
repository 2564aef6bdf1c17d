import type { DraftCheck } from '../../phrase/check/draft-check';
import { writePhrase } from '../../phrase/file/write-phrase';
import type { Phrase } from '../../phrase/model/phrase';
import { isSameDraft, type PhraseDraft } from '../../phrase/model/phrase-draft';
import type { PhraseError } from '../../phrase/model/phrase-error';
import { Autosave, type AutosaveParts } from './autosave.svelte';
import { CheckedDraft, type ShownLayer } from './checked-draft.svelte';
import { layerKeys, type KeyedDraft, type LayerKeys } from './layer-keys';
import type { LibraryPhrase } from '../library.svelte';
import { clamp } from '../../time/whole';
import { UndoHistory } from './undo-history.svelte';

interface Snapshot extends KeyedDraft {
  readonly layer: number;
}

/** What a phrase is kept as. */
export interface PhraseName {
  readonly id: string;
  readonly title: string;
}

export interface CompositionParts extends Omit<AutosaveParts, 'onChangedElsewhere'> {
  /** Another tab has changed a phrase of this title: what to keep as what is written here. The player is told. */
  readonly keepBeside: (title: string) => PhraseName;
}

/** A phrase being written: its states, what is wrong with it and how it is shown, and how it is kept. */
export class Composition {
  readonly #history: UndoHistory<Snapshot>;
  readonly #checked: CheckedDraft;
  readonly #keepBeside: CompositionParts['keepBeside'];
  readonly #autosave: Autosave;
  #lastKey = 0;
  readonly #freshKey = () => ++this.#lastKey;

  /** `kept` says whether the library has the phrase already. */
  constructor(id: string, draft: PhraseDraft, kept: boolean, parts: CompositionParts) {
    this.#keepBeside = parts.keepBeside;
    const layer = draft.layers.length;
    const keys = layerKeys(draft, undefined, this.#freshKey);
    this.#history = new UndoHistory<Snapshot>({ draft, layer, keys }, (a, b) =>
      isSameDraft(a.draft, b.draft),
    );
    this.#checked = new CheckedDraft(draft, layer);
    this.#autosave = new Autosave(id, kept, {
      ...parts,
      onChangedElsewhere: () => this.#goOnBeside(),
    });
  }

  /** Another one once another tab has changed the phrase as well. */
  get id(): string {
    return this.#autosave.id;
  }

  get draft(): PhraseDraft {
    return this.#history.now.draft;
  }
  /** The layer that is edited, 1-based. */
  get layer(): number {
    return this.#history.now.layer;
  }
  /** What each layer and change is known by, wherever it is moved, and once an edit is taken back. */
  get keys(): readonly LayerKeys[] {
    return this.#history.now.keys;
  }
  /** The draft as far as it has been laid on and checked. */
  get check(): DraftCheck {
    return this.#checked.check;
  }
  /** What is wrong with the draft as it stands. */
  get errors(): readonly PhraseError[] {
    return this.#checked.check.errors;
  }
  /** The last state that was a phrase. */
  get good(): Phrase | undefined {
    return this.#checked.good;
  }
  /** The layer that is edited, or what is nearest to it and can be shown. */
  get shown(): ShownLayer | undefined {
    return this.#checked.shown;
  }
  /** Why an edit is only in memory, if so. */
  get problem(): string | undefined {
    return this.#autosave.problem;
  }
  /** Whether the library has it: not before the first edit of a new phrase. */
  get kept(): boolean {
    return this.#autosave.kept;
  }
  get canUndo(): boolean {
    return this.#history.canUndo;
  }
  get canRedo(): boolean {
    return this.#history.canRedo;
  }

  /** What can be practised: the last state that was a phrase. */
  get entry(): LibraryPhrase | undefined {
    const phrase = this.good;
    return phrase && { id: this.id, phrase, text: writePhrase(phrase), own: true };
  }

  chooseLayer(layer: number): void {
    const { now } = this.#history;
    this.#history.replace({ ...now, layer: within(layer, now.draft) });
    this.#checked.take(this.draft, this.layer);
  }

  /**
   * Makes an edit, and goes to a layer (1-based) with it. Edits that name the same thing they join are undone as one,
   * see UndoHistory.
   */
  edit(
    change: (draft: PhraseDraft, check: DraftCheck) => PhraseDraft,
    { layer = this.layer, joins }: { layer?: number; joins?: string | undefined } = {},
  ): void {
    const { now } = this.#history;
    const draft = change(now.draft, this.check);
    if (isSameDraft(draft, now.draft)) return;
    const keys = layerKeys(draft, now, this.#freshKey);
    this.#history.step({ draft, layer: within(layer, draft), keys }, joins);
    this.#changed();
  }

  /** Ends what is typed in a row: the next edit is a step of its own. */
  settle(): void {
    this.#history.settle();
  }

  undo(): void {
    if (this.#history.undo()) this.#changed();
  }

  redo(): void {
    if (this.#history.redo()) this.#changed();
  }

  /** Keeps what is not kept yet, now. */
  flush(): Promise<void> {
    return this.#autosave.flush();
  }

  /** Keeps a new phrase that nobody has edited yet. */
  keep(): Promise<void> {
    return this.#autosave.keep(this.check);
  }

  /** Another tab has changed the phrase: what is written here is a phrase of its own from now on. */
  #goOnBeside(): void {
    const { now } = this.#history;
    const { id, title } = this.#keepBeside(now.draft.title);
    this.#history.replace({ ...now, draft: { ...now.draft, title } });
    this.#checked.take(this.draft, this.layer);
    this.#autosave.keepAs(id, this.check);
  }

  #changed(): void {
    this.#checked.take(this.draft, this.layer);
    this.#autosave.keepSoon(this.check);
  }
}

const within = (layer: number, { layers }: PhraseDraft): number => clamp(layer, 1, layers.length);
