import { DraftCheck } from '../../phrase/check/draft-check';
import { readDraft } from '../../phrase/file/read-draft';
import type { Phrase } from '../../phrase/model/phrase';
import { draftOf, type PhraseDraft } from '../../phrase/model/phrase-draft';
import { storeProblem } from '../../store/store-problem';
import { bad } from '../../time/result';
import { another, freeTitle } from '../../phrase/model/free-title';
import { Composition, type PhraseName } from './composition.svelte';
import { copyTitle, newId, type Library } from '../library.svelte';
import type { LeftEdit, UnsavedEdits } from './unsaved-edits';

/** What a phrase starts from: the least that sounds. */
const NEW_PHRASE: PhraseDraft = {
  title: 'New phrase',
  meter: '4/4',
  tempoBpm: 90,
  subdivision: 4,
  grouping: 'R L',
  layers: [{ name: 'Sticking', changes: [] }],
};

/** The phrases being written, each with its undo for as long as the page lives. */
export class Compositions {
  readonly #library: Library;
  readonly #unsaved: UnsavedEdits;
  #open: readonly Composition[] = [];
  #notices: readonly string[] = $state.raw([]);

  constructor(library: Library, unsaved: UnsavedEdits) {
    this.#library = library;
    this.#unsaved = unsaved;
  }

  /** What was changed in two tabs and is there twice now, a sentence each. */
  get notices(): readonly string[] {
    return this.#notices;
  }

  /**
   * The composition of an own phrase; of a copy, where the phrase is one of ours; of a new phrase without an id;
   * undefined where there is no such phrase.
   */
  open(id: string | undefined): Composition | undefined {
    if (id === undefined) return this.#begin(newId(), NEW_PHRASE, false);
    const draft = this.#library.draftFor(id);
    if (!draft) return undefined;
    const entry = this.#library.find(id);
    if (entry && !entry.own)
      return this.#begin(newId(), { ...draft, title: copyTitle(draft.title) }, false);
    return this.#opened(id) ?? this.#begin(id, draft, true);
  }

  /**
   * Puts a phrase in the place of an own one, as an edit that the composer can take back. Where another tab has changed
   * that one, it is kept beside it, under another id.
   */
  async replace(id: string, phrase: Phrase): Promise<Pick<Composition, 'id' | 'problem'>> {
    const composition = this.#opened(id) ?? this.#begin(id, this.#library.draftFor(id)!, true);
    composition.settle();
    composition.edit(() => draftOf(phrase), { layer: phrase.layers.length });
    await composition.flush();
    return composition;
  }

  /** Removes an own phrase, its edits with it. Error: it may come back. */
  async remove(id: string): ReturnType<Library['remove']> {
    const open = this.#opened(id);
    await open?.flush();
    if (open && open.id !== id) return bad(storeProblem('CHANGED'));
    this.#open = this.#open.filter((one) => one !== open);
    this.#unsaved.drop(id);
    return this.#library.remove(id);
  }

  /** Keeps edits that a page left too soon to have kept. The library must have been loaded. */
  async recover(): Promise<void> {
    for (const edit of await this.#unsaved.left()) {
      const draft = readDraft(edit.text);
      if (!draft || (await this.#recover(edit, draft)).ok) edit.forget();
    }
  }

  #recover({ id, text, base }: LeftEdit, draft: PhraseDraft): ReturnType<Library['save']> {
    const stored = this.#library.storedText(id);
    const isChanged = stored !== undefined && base !== undefined && stored !== base;
    if (!isChanged || stored === text) return this.#library.save(id, new DraftCheck(draft));
    const beside = this.#keepBeside(draft.title);
    return this.#library.save(beside.id, new DraftCheck({ ...draft, title: beside.title }));
  }

  #keepBeside(title: string): PhraseName {
    const { phrases, unfinished } = this.#library;
    const own = phrases.filter((entry) => entry.own).map(({ phrase }) => phrase);
    const taken = [...own, ...unfinished].map((one) => one.title);
    const free = freeTitle(title, another, taken);
    this.#notices = [
      ...this.#notices,
      `Another tab has changed the same phrase. What you wrote is kept beside it, as "${free}".`,
    ];
    return { id: newId(), title: free };
  }

  #opened(id: string): Composition | undefined {
    return this.#open.find((composition) => composition.id === id);
  }

  #begin(id: string, draft: PhraseDraft, kept: boolean): Composition {
    const composition = new Composition(id, draft, kept, {
      library: this.#library,
      unsaved: this.#unsaved,
      keepBeside: (title) => this.#keepBeside(title),
    });
    this.#open = [...this.#open, composition];
    return composition;
  }
}
