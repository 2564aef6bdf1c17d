import type { Note } from '../phrase/model/note';
import { voiceNumber } from '../phrase/model/voice';

/**
 * Every voice that is written on a lane or played by the app; the list is another one whenever one has come.
 *
 * @example new LaneVoices().rows // => []
 */
export class LaneVoices {
  /** Indices into VOICES, ascending. */
  rows: readonly number[] = [];
  /** Notes of the accompaniment that were looked at. */
  #accompanying = 0;

  /** By its index into VOICES. */
  add(voice: number): void {
    if (!this.rows.includes(voice)) this.rows = [...this.rows, voice].sort((a, b) => a - b);
  }

  /** What the app plays, of which only what has come since is looked at. */
  addAll(accompaniment: readonly { readonly note: Pick<Note, 'voice'> }[]): void {
    this.#accompanying = Math.min(this.#accompanying, accompaniment.length);
    for (; this.#accompanying < accompaniment.length; this.#accompanying++)
      this.add(voiceNumber(accompaniment[this.#accompanying]!.note.voice));
  }
}
