import { noteKey } from '../phrase/edit/cycle-strokes';
import { cycleNotes, pickupNotes } from '../phrase/layers/expand';
import { layerShape } from '../phrase/layers/layer-shape';
import { limbName, LIMBS } from '../phrase/model/limb';
import type { Note, NoteSound } from '../phrase/model/note';
import type { Phrase } from '../phrase/model/phrase';
import { syllable } from '../phrase/model/syllable';
import type { Voice } from '../phrase/model/voice';
import type { Meter } from '../time/meter';
import { remainder } from '../time/whole';
import { mainNotes, type MainNote } from './main-notes';
import { STAFF_PLACES } from './staff-places';

export interface ScoreGrace {
  readonly voice: Voice;
  /** Half staff spaces above the middle line. */
  readonly place: number;
}

/** A main note of the score line, with the grace notes ahead of it. */
export interface ScoreNote extends NoteSound {
  /** `${position}/${limb}`. */
  readonly key: string;
  readonly position: number;
  /** Half staff spaces above the middle line. */
  readonly place: number;
  /** In the order they are played. */
  readonly graces: readonly ScoreGrace[];
  /** Grace notes small, ahead of the limb: "lR". */
  readonly sticking: string;
  readonly name: string;
}

/** One partial of the score line. */
export interface ScoreColumn {
  /** 1-based partial of the cycle; in the pickup, minus the partials before the downbeat. */
  readonly position: number;
  /** Whole partials from bar 1 beat 1. */
  readonly partial: number;
  readonly count: string;
  /** 1-based; 0 holds the pickup. */
  readonly bar: number;
  readonly onBeat: boolean;
  readonly onBar: boolean;
  /** Top of the staff first. */
  readonly notes: readonly ScoreNote[];
}

/** What a score line shows. */
export interface ScoreContent {
  readonly meter: Meter;
  readonly meterText: string;
  readonly subdivision: number;
  /** The pickup's columns, then those of the cycle. */
  readonly columns: readonly ScoreColumn[];
  readonly pickupColumns: number;
}

/**
 * One cycle of a layer (1-based) where it falls the first time it is whole, after its pickup.
 *
 * @throws RangeError when the phrase has no such layer.
 */
export function scoreContent(phrase: Phrase, layer: number): ScoreContent {
  const { subdivision, startBeats } = layerShape(phrase, layer);
  const displaced = startBeats.mul(subdivision).valueOf();
  const cycle = displaced < 0 ? 2 : 1;
  const start = displaced + (cycle - 1) * phrase.cycle;
  const pickup = mainNotes(pickupNotes(phrase, layer));
  const pickupColumns = Math.max(0, ...pickup.map(({ main }) => -main.position));
  const barPartials = phrase.meter.beatsPerBar * subdivision;
  const column = (
    partial: number,
    position: number,
    notes: readonly MainNote<Note>[],
  ): ScoreColumn => ({
    position,
    partial,
    count: syllable(phrase.meter, subdivision, partial),
    bar: Math.floor(partial / barPartials) + 1,
    onBeat: remainder(partial, subdivision) === 0,
    onBar: remainder(partial, barPartials) === 0,
    notes: scoreNotes(notes.filter(({ main }) => main.position === position)),
  });
  const notes = mainNotes(cycleNotes(phrase, layer, cycle, 1));
  return {
    meter: phrase.meter,
    meterText: phrase.meterText,
    subdivision,
    pickupColumns,
    columns: [
      ...Array.from({ length: pickupColumns }, (_, i) =>
        column(i - pickupColumns, i - pickupColumns, pickup),
      ),
      ...Array.from({ length: phrase.cycle }, (_, i) => column(start + i, i + 1, notes)),
    ],
  };
}

function scoreNotes(here: readonly MainNote<Note>[]): readonly ScoreNote[] {
  return here
    .map(({ main, graces, sticking }) => {
      const { position, limb, voice, level } = main;
      return {
        key: noteKey({ position, limb }),
        position,
        limb,
        voice,
        level,
        place: STAFF_PLACES[voice],
        graces: graces.map((grace) => ({ voice: grace.voice, place: STAFF_PLACES[grace.voice] })),
        sticking,
        name: noteName(main, graces.length),
      };
    })
    .sort((a, b) => b.place - a.place || LIMBS.indexOf(a.limb) - LIMBS.indexOf(b.limb));
}

const GRACE_WORDS = ['', ', with a flam', ', with a drag'];

/** A note in words, for those who cannot see where it stands. */
function noteName({ position, limb, voice, level }: Note, graces: number): string {
  const where = position < 0 ? `pickup, ${-position} ahead` : `position ${position}`;
  return `${where}, ${limbName(limb)}, ${voice}, ${level}${GRACE_WORDS[Math.min(2, graces)]}`;
}
