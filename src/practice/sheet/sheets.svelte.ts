import type { SettingsStore } from '../../store/settings-store';
import { readSheetChoices, writeSheetChoices, type SheetChoices } from './sheet-choices';
import { SheetDrawing } from './sheet-drawing.svelte';
import { sheetThread, type SheetThread } from './sheet-thread';

/** The engraver takes 128 MB: it waits so long for another sheet after one was left, ms. Chosen. */
const WAITS_MS = 60_000;

/** Sheets of phrases: how the player wants them, and the one engraver. */
export class Sheets {
  readonly #settings: SettingsStore;
  readonly #thread: SheetThread;
  #choices: SheetChoices = $state.raw()!;
  #shown: SheetDrawing | undefined;
  #ending: ReturnType<typeof setTimeout> | undefined;

  constructor(settings: SettingsStore, thread: SheetThread = sheetThread()) {
    this.#settings = settings;
    this.#thread = thread;
    this.#choices = readSheetChoices(settings);
  }

  get choices(): SheetChoices {
    return this.#choices;
  }

  choose(some: Partial<SheetChoices>): void {
    this.#choices = { ...this.#choices, ...some };
    writeSheetChoices(this.#settings, this.#choices);
  }

  /** A sheet to be drawn; `leave` says when nobody looks at it any more. */
  open(): SheetDrawing {
    clearTimeout(this.#ending);
    return (this.#shown = new SheetDrawing(this.#thread));
  }

  /** Another sheet within a minute finds the engraver warm. */
  leave(drawing: SheetDrawing): void {
    drawing.close();
    // The next one may be here before this one is left.
    if (drawing !== this.#shown) return;
    this.#ending = setTimeout(() => this.#thread.end(), WAITS_MS);
  }
}
