import * as v from 'valibot';
import { hold, isOnHold } from '../../store/hold';
import { randomId } from '../../store/random-id';
import { UNSAVED_EDITS, type SettingsStore } from '../../store/settings-store';

const SETTING = `${UNSAVED_EDITS} of `;
/** As pages before this one noted all of theirs, by id. */
const OLD_SETTING = UNSAVED_EDITS;
const OldShape = v.record(v.string(), v.string());

const EditShape = v.object({ id: v.string(), text: v.string(), base: v.optional(v.string()) });

/** The text of an own phrase that the database has not confirmed yet. */
export interface UnsavedEdit {
  readonly id: string;
  readonly text: string;
  /** What stood in the database when it was edited; undefined where nothing was known to. */
  readonly base?: string | undefined;
}

/** One that a tab has left behind which is gone. */
export interface LeftEdit extends UnsavedEdit {
  /** It is safe. */
  readonly forget: () => void;
}

/** How tabs know of each other. */
export interface OtherTabs {
  readonly hold: (name: string) => unknown;
  readonly isOnHold: (name: string) => Promise<boolean>;
}

/**
 * Texts of own phrases that the database has not confirmed yet. Written down before the page can be left, which the
 * database cannot be. Each tab has notes of its own, which no other touches as long as it lives.
 */
export class UnsavedEdits {
  readonly #settings: Pick<SettingsStore, 'read' | 'write' | 'remove' | 'names'>;
  readonly #tabs: OtherTabs;
  readonly #tab = randomId();
  readonly #ours = `${SETTING}${this.#tab} `;

  constructor(
    settings: Pick<SettingsStore, 'read' | 'write' | 'remove' | 'names'>,
    tabs: OtherTabs = { hold, isOnHold },
  ) {
    this.#settings = settings;
    this.#tabs = tabs;
    tabs.hold(SETTING + this.#tab);
  }

  /** Those of this tab. */
  get all(): readonly UnsavedEdit[] {
    return this.#settings.names(this.#ours).flatMap((name) => this.#read(name) ?? []);
  }

  /** Those of every tab, this one's first. */
  get ofAllTabs(): readonly UnsavedEdit[] {
    const others = this.#settings.names(SETTING).filter((name) => !name.startsWith(this.#ours));
    return [...this.all, ...others.flatMap((name) => this.#read(name) ?? [])];
  }

  note(edit: UnsavedEdit): void {
    this.#settings.write(this.#ours + edit.id, edit);
  }

  /** The database has this text of it. */
  forget(id: string, text: string): void {
    if (this.#read(this.#ours + id)?.text === text) this.drop(id);
  }

  drop(id: string): void {
    this.#settings.remove(this.#ours + id);
  }

  /** What tabs have left behind that are gone. */
  async left(): Promise<readonly LeftEdit[]> {
    const old = this.#settings.read(OLD_SETTING, OldShape, {});
    for (const [id, text] of Object.entries(old))
      this.#settings.write(`${SETTING}before ${id}`, { id, text });
    this.#settings.remove(OLD_SETTING);
    const left = this.#settings.names(SETTING).map(async (name) => {
      const [tab] = name.slice(SETTING.length).split(' ', 1);
      const edit = this.#read(name);
      if (!edit || (await this.#tabs.isOnHold(SETTING + tab))) return [];
      return [{ ...edit, forget: () => this.#settings.remove(name) }];
    });
    return (await Promise.all(left)).flat();
  }

  #read(name: string): UnsavedEdit | undefined {
    return this.#settings.read(name, v.optional(EditShape), undefined);
  }
}
