import { decompose } from '../phrase/decompose/decompose';
import {
  inBarOrder,
  OFF_THE_GRID,
  remarkOnAll,
  remarksByBar,
  tempoChanges,
  type FileRemark,
} from '../phrase/decompose/file-remark';
import type { TargetPattern } from '../phrase/decompose/target-pattern';
import type { Phrase } from '../phrase/model/phrase';
import { MAX_CYCLE, MAX_NAME, MAX_PATTERN } from '../phrase/model/phrase-file';
import type { MidiFile } from '../take/midi-file';
import { tempoOfMidiFile } from '../take/take-of-midi-file';
import { bad, good, type Result } from '../time/result';
import { notAPhrase, type PhraseInFileError } from './phrase-in-file-error';
import { writtenLevels } from './written-levels';
import { writtenNotes } from './written-notes';
import { writtenPartials } from './written-partials';
import { writtenPattern } from './written-pattern';
import { writtenStretch, type WrittenStretch } from './written-stretch';

export interface PhraseInFileOptions {
  /** 1-based: of the layers that the file's markers name; the last unless given. */
  readonly layer?: number | undefined;
  /** Where the file has no title. */
  readonly title?: string;
}

/** A phrase that was written as a MIDI file. */
export interface MidiPhrase {
  /** Split into layers. */
  readonly phrase: Phrase;
  /** The same notes as they stand there. */
  readonly pattern: TargetPattern;
  /** What was not read or only guessed, in bar order after what is about all of it. */
  readonly remarks: readonly FileRemark[];
}

const UNTITLED = 'Untitled';
/** More notes off every grid than this share: played, not written. Chosen, not measured. */
const MOST_OFF_GRID = 1 / 2;

/**
 * A phrase from a MIDI file in which it was written, by this program or another: the notes of channel 10 on the grid that
 * they lie on, split into layers. What a file holds that a phrase does not is told, by bar where it has one: other
 * channels, notes between the partials, changes of meter or tempo. Who strikes is read where this program wrote it, and
 * guessed elsewhere. Refused: a file in frames, without percussion, of a meter that no phrase has, or that was played.
 *
 * @example phraseInFile(readMidiFile(midiOfPhrase(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value)).value).value.phrase.groupingText // => 'R L K'
 */
export function phraseInFile(
  file: MidiFile,
  { layer, title = UNTITLED }: PhraseInFileOptions = {},
): Result<MidiPhrase, PhraseInFileError> {
  const { notes, unmapped, elsewhere } = writtenNotes(file);
  if (notes.length === 0) return notAPhrase('NO_PERCUSSION', NO_PERCUSSION);
  const found = writtenStretch(file, notes, layer);
  if (!found.ok) return found;
  const stretch = found.value;
  const { bpm, remarks: tempoRemarks } = tempoIn(file, stretch);
  const placed = writtenPartials(notes, stretch, 60e6 / bpm);
  const { offGrid } = placed;
  if (placed.notes.length === 0 && offGrid.length === 0)
    return notAPhrase('NO_PERCUSSION', 'The bars that are read have no percussion; choose others.');
  if (offGrid.length > MOST_OFF_GRID * (placed.notes.length + offGrid.length))
    return notAPhrase('NOT_WRITTEN', NOT_WRITTEN);
  const levelOf = writtenLevels(notes.map(({ velocity }) => velocity));
  const name = (file.names[0] ?? title).slice(0, MAX_NAME);
  const takenApart = (most: number) => {
    const written = writtenPattern(placed, { stretch, bpm, levelOf }, most);
    return { ...written, phrase: decompose(written.pattern, name) };
  };
  const whole = takenApart(MAX_PATTERN);
  const isLong = whole.pattern.cyclePartials > MAX_CYCLE;
  const { phrase, pattern, remarks } = whole.phrase.ok || !isLong ? whole : takenApart(MAX_CYCLE);
  if (!phrase.ok) return bad(...phrase.errors);
  const bars = (ticks: readonly number[]) => ticks.map(stretch.barOf);
  return good({
    phrase: phrase.value,
    pattern,
    remarks: inBarOrder([
      ...stretch.remarks,
      ...(elsewhere.length > 0 ? [remarkOnAll(OTHER_CHANNELS)] : []),
      ...tempoRemarks,
      ...remarks,
      ...remarksByBar(bars(unmapped), 'on keys that General MIDI has no drum for'),
      ...remarksByBar(bars(offGrid.map(({ tick }) => tick)), OFF_THE_GRID),
    ]),
  });
}

const NO_PERCUSSION =
  'It has no notes on channel 10, where percussion is written; put the drum part there.';
const NOT_WRITTEN =
  'Most of its notes lie between the partials: it was played, not written. Capture it instead.';
const OTHER_CHANNELS = 'Notes on other channels than 10 are no percussion and are left out.';
/** The tempo that the phrase begins at, and where the file leaves it. */
function tempoIn(
  file: MidiFile,
  { fromTick, toTick, meter, barOf }: WrittenStretch,
): { readonly bpm: number; readonly remarks: readonly FileRemark[] } {
  const quarters = meter.quartersPerBeat.valueOf();
  const at = Math.max(
    0,
    file.tempos.findLastIndex(({ tick }) => tick <= fromTick),
  );
  const before = file.tempos.slice(0, at + 1);
  const [{ bpm: stated } = { bpm: 0 }] = tempoOfMidiFile({ ...file, tempos: before }, meter, 1e6);
  const bpm = plainBpm(stated, quarters);
  const change = file.tempos.find(
    ({ tick, usPerQuarter }, i) =>
      i > at && tick < toTick && usPerQuarter !== file.tempos[at]!.usPerQuarter,
  );
  const remarks = change ? [tempoChanges(barOf(change.tick), bpm)] : [];
  return { bpm, remarks };
}

/** The tempo of fewest decimals that a file tells in the same whole microseconds a quarter. */
function plainBpm(bpm: number, quartersPerBeat: number): number {
  const usOf = (tempo: number) => Math.round(60e6 / (tempo * quartersPerBeat));
  for (let decimals = 0; decimals < 6; decimals++) {
    const plain = Number(bpm.toFixed(decimals));
    if (plain > 0 && usOf(plain) === usOf(bpm)) return plain;
  }
  return bpm;
}
