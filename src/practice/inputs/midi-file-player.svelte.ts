import { kitFor } from '../../kit/built-in-kits';
import type { Kit } from '../../kit/kit';
import { createFileSource, type FileSource } from '../../midi/file-source';
import type { MidiFileError } from '../../take/midi-file';
import type { Meter } from '../../time/meter';
import { bad, good, type Result } from '../../time/result';

/** A MIDI file that will be played in place of a kit. */
export interface ChosenFile {
  readonly name: string;
  /** In beats of the phrase's meter; undefined when the file tells none. */
  readonly tempoBpm: number | undefined;
  readonly kitTitle: string;
}

/** What reads the files, apart from the first load. */
export const loadMidiFiles = () =>
  Promise.all([import('../../take/read-midi-file'), import('../../take/take-of-midi-file')]);

/** Plays a MIDI file that the player chose. */
export class MidiFilePlayer {
  #chosen: ChosenFile | undefined = $state.raw();
  #source: FileSource | undefined;

  get chosen(): ChosenFile | undefined {
    return this.#chosen;
  }
  get source(): FileSource | undefined {
    return this.#source;
  }

  /** Takes a file, read with `kit` where that has a pad for every note. */
  async choose(
    file: File,
    meter: Meter | undefined,
    kit: Kit,
  ): Promise<Result<ChosenFile, MidiFileError>> {
    const [{ readMidiFile }, { takeOfMidiFile }] = await loadMidiFiles();
    const parsed = readMidiFile(new Uint8Array(await file.arrayBuffer()));
    if (!parsed.ok)
      return bad(
        ...parsed.errors.map((error) => ({ ...error, message: `${file.name}: ${error.message}` })),
      );
    const taken = meter && takeOfMidiFile(parsed.value, { meter, countInBars: 0 });
    const { messages } = parsed.value;
    const notes = messages.filter(({ status }) => status >> 4 === 9).map(({ data1 }) => data1);
    const kitOfFile = mapsAll(kit, notes) ? kit : kitFor(notes);
    this.#source?.stop();
    this.#source = createFileSource(file.name, messages, kitOfFile);
    const chosen = {
      name: file.name,
      tempoBpm: taken?.ok ? taken.value.tempos[0]?.bpm : undefined,
      kitTitle: kitOfFile.title,
    };
    this.#chosen = chosen;
    return good(chosen);
  }
}

const mapsAll = (kit: Kit, notes: readonly number[]): boolean =>
  notes.every((note) => kit.pads.some((pad) => pad.note === note));
