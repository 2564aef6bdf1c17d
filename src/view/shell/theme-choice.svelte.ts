import * as v from 'valibot';
import type { SettingsStore } from '../../store/settings-store';

export const THEMES = ['system', 'light', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

/** Light, dark, or as the system is set. */
export class ThemeChoice {
  readonly #settings: SettingsStore;
  #theme = $state<Theme>('system');

  constructor(settings: SettingsStore) {
    this.#settings = settings;
    this.#theme = settings.read('theme', v.picklist(THEMES), 'system');
    this.#apply();
  }

  get current(): Theme {
    return this.#theme;
  }

  choose(theme: Theme): void {
    this.#theme = theme;
    this.#settings.write('theme', theme);
    this.#apply();
  }

  #apply(): void {
    const root = document.documentElement;
    if (this.#theme === 'system') delete root.dataset['theme'];
    else root.dataset['theme'] = this.#theme;
  }
}
