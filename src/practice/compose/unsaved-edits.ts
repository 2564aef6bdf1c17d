import * as v from 'valibot';
import type { SettingsStore } from '../../store/settings-store';

const SETTING = 'unsaved edits';
const Shape = v.record(v.string(), v.string());

/**
 * Texts of own phrases that the database has not confirmed yet, by id. Written down before the page can be left,
 * which the database cannot be.
 */
export class UnsavedEdits {
  readonly #settings: Pick<SettingsStore, 'read' | 'write'>;

  constructor(settings: Pick<SettingsStore, 'read' | 'write'>) {
    this.#settings = settings;
  }

  get all(): Readonly<Record<string, string>> {
    return this.#settings.read(SETTING, Shape, {});
  }

  note(id: string, text: string): void {
    this.#settings.write(SETTING, { ...this.all, [id]: text });
  }

  /** The database has this text of it. */
  forget(id: string, text: string): void {
    const { [id]: noted, ...others } = this.all;
    if (noted === text) this.#settings.write(SETTING, others);
  }

  drop(id: string): void {
    const { [id]: noted, ...others } = this.all;
    if (noted !== undefined) this.#settings.write(SETTING, others);
  }
}
