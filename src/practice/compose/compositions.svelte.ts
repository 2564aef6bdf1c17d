import { DraftCheck } from '../../phrase/check/draft-check';
import { readDraft } from '../../phrase/file/read-draft';
import type { PhraseDraft } from '../../phrase/model/phrase-draft';
import type { SettingsStore } from '../../store/settings-store';
import { Composition } from './composition.svelte';
import { copyTitle, newId, type Library } from '../library.svelte';
import { UnsavedEdits } from './unsaved-edits';

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
  readonly #open = new Map<string, Composition>();

  constructor(library: Library, settings: Pick<SettingsStore, 'read' | 'write'>) {
    this.#library = library;
    this.#unsaved = new UnsavedEdits(settings);
  }

  /**
   * The composition of an own phrase; of a copy, where the phrase is one of ours; of a new phrase without an id;
   * undefined where there is no such phrase. `onKept` is told the id of a phrase that was not kept before, once it is.
   */
  open(id: string | undefined, onKept?: (id: string) => void): Composition | undefined {
    if (id === undefined) return this.#begin(newId(), NEW_PHRASE, false, onKept);
    const draft = this.#library.draftFor(id);
    if (!draft) return undefined;
    const entry = this.#library.find(id);
    if (entry && !entry.own)
      return this.#begin(newId(), { ...draft, title: copyTitle(draft.title) }, false, onKept);
    return this.#open.get(id) ?? this.#begin(id, draft, true);
  }

  /** Removes an own phrase, its edits with it. Error: it may come back. */
  async remove(id: string): ReturnType<Library['remove']> {
    await this.#open.get(id)?.flush();
    this.#open.delete(id);
    this.#unsaved.drop(id);
    return this.#library.remove(id);
  }

  /** Keeps edits that a page left too soon to have kept. The library must have been loaded. */
  async recover(): Promise<void> {
    for (const [id, text] of Object.entries(this.#unsaved.all)) {
      const draft = readDraft(text);
      const isStored = !draft || (await this.#library.save(id, new DraftCheck(draft))).ok;
      if (isStored) this.#unsaved.forget(id, text);
    }
  }

  #begin(
    id: string,
    draft: PhraseDraft,
    kept: boolean,
    onKept?: (id: string) => void,
  ): Composition {
    const composition = new Composition(id, draft, kept, {
      library: this.#library,
      unsaved: this.#unsaved,
      ...(onKept && { onKept }),
    });
    this.#open.set(id, composition);
    return composition;
  }
}
