import {
  NO_LIMB_LEFT,
  OFF_THE_GRID,
  remarkAt,
  remarksByBar,
  type FileRemark,
} from '../../phrase/decompose/file-remark';
import type { PatternNote } from '../../phrase/decompose/target-pattern';
import { DEFAULT_BOUNDARIES, type Level } from '../../phrase/model/level';
import { isHand, type Limb } from '../../phrase/model/limb';
import { fillInLimbs } from '../../phrase/playability/fill-in-limbs';
import type { Beats } from '../../time/beats';
import type { Meter } from '../../time/meter';
import type { BarInTime } from './bars-in-time';
import { finestPartials } from './finest-partials';
import { gracesOf, type ReadGrace } from './graces-of';
import { limbsOf } from './limbs-of';
import type { ReadNote } from './read-bars';
import type { ReadHead } from './read-head';
import type { StickingStroke } from './read-sticking';

/** Strokes at their partials from bar 1 beat 1, negative in a pickup. */
export interface BarsInPartials {
  readonly subdivision: number;
  readonly strokes: readonly PatternNote[];
  readonly unread: readonly FileRemark[];
  /** Of the hands' strokes, how many the file says the hand of, 0 to 1. */
  readonly stickingShare: number;
}

/** What is struck at once. */
interface ReadColumn {
  readonly beat: Beats;
  readonly bar: number;
  readonly notes: readonly ReadNote[];
  /** As a row of text says it. */
  readonly strokes: readonly StickingStroke[];
}

/**
 * The notes of bars on the partials of the coarsest subdivision that holds them all, or of `given` where that does, each
 * with its limb.
 */
export function barsInPartials(
  bars: readonly BarInTime[],
  meter: Meter,
  tempoBpm: number,
  given: number | undefined,
): BarsInPartials {
  const unread: FileRemark[] = bars.flatMap(({ bar, number }) =>
    bar.unread.map((what) => remarkAt(number, `there is ${what}`)),
  );
  const all = columnsOf(bars, meter);
  const onsets = all.flatMap(({ beat, notes }) => notes.map(() => beat));
  const subdivision = finestPartials(onsets, given);
  const isHeld = ({ beat }: ReadColumn) => beat.mul(subdivision).d === 1n;
  const columns = all.filter(isHeld);
  const barsOf = ({ bar, notes }: ReadColumn) => notes.map(() => bar);
  const offGrid = all.filter((column) => !isHeld(column)).flatMap(barsOf);
  const limbless: number[] = [];
  const partials = columns.map(({ beat }) => beat.mul(subdivision).valueOf());
  const levelOf = levelsAmong(columns);
  const written = columns.map(({ notes, strokes }) => limbsOf(notes, strokes));
  const limbs = allLimbs(columns, partials, written, { subdivision, tempoBpm });
  const strokes = columns.flatMap((column, c) =>
    column.notes.flatMap((note, i): PatternNote[] => {
      const limb = limbs[c]![i];
      const tell = (words: string) => unread.push(remarkAt(column.bar, words));
      if (!limb) {
        limbless.push(column.bar);
        return [];
      }
      const stroke = { partial: partials[c]!, limb, voice: note.voice, level: levelOf(note) };
      const graces = gracesOf(column.notes, limbs[c]!, i, column.strokes);
      if (isHand(limb)) return [withGraces(stroke, graces, levelOf)];
      if (graces.length > 0) tell(`the ${note.voice} has grace notes, and a foot plays none`);
      return [{ ...stroke, graces: [] }];
    }),
  );
  unread.push(...remarksByBar(offGrid, OFF_THE_GRID), ...remarksByBar(limbless, NO_LIMB_LEFT));
  const hands = handsIn(limbs);
  const stickingShare = hands === 0 ? 1 : handsIn(written) / hands;
  return { subdivision, strokes, unread, stickingShare };
}

/** In time order. */
function columnsOf(bars: readonly BarInTime[], meter: Meter): readonly ReadColumn[] {
  const columns = new Map<string, ReadColumn & { notes: ReadNote[]; strokes: StickingStroke[] }>();
  for (const { bar, number, from } of bars) {
    const columnAt = (at: Beats) => {
      const beat = from.add(at.div(meter.quartersPerBeat));
      const key = beat.toFraction();
      const column = columns.get(key) ?? { beat, bar: number, notes: [], strokes: [] };
      columns.set(key, column);
      return column;
    };
    for (const note of bar.notes) columnAt(note.at).notes.push(note);
    for (const { at, strokes } of bar.stickings) columnAt(at).strokes.push(...strokes);
  }
  return [...columns.values()]
    .filter(({ notes }) => notes.length > 0)
    .sort((a, b) => a.beat.compare(b.beat));
}

/** The level of a head: soft ones are ghosts where others are not. */
function levelsAmong(columns: readonly ReadColumn[]): (head: ReadHead) => Level {
  const { ghostMax } = DEFAULT_BOUNDARIES;
  const hasLoud = columns.some(({ notes }) =>
    notes.some(({ velocity }) => (velocity ?? 0) > ghostMax),
  );
  return ({ level, velocity }) =>
    level === 'tap' && hasLoud && velocity !== undefined && velocity <= ghostMax ? 'ghost' : level;
}

const handsIn = (limbs: readonly (readonly (Limb | undefined)[])[]): number =>
  limbs.flat().filter((limb) => limb !== undefined && isHand(limb)).length;

/** The written limbs, and likely ones where there are none. */
function allLimbs(
  columns: readonly ReadColumn[],
  partials: readonly number[],
  written: readonly (readonly (Limb | undefined)[])[],
  { subdivision, tempoBpm }: { readonly subdivision: number; readonly tempoBpm: number },
): readonly (readonly (Limb | undefined)[])[] {
  const first = partials[0] ?? 0;
  const flat = columns.flatMap(({ notes }, c) =>
    notes.map(({ voice }, i) => ({ partial: partials[c]! - first, voice, limb: written[c]![i] })),
  );
  const span = (partials.at(-1) ?? 0) - first + subdivision;
  const limbs = fillInLimbs(flat, span, 60e6 / (tempoBpm * subdivision));
  let at = 0;
  return columns.map(({ notes }) => notes.map(() => limbs[at++]));
}

function withGraces(
  stroke: Omit<PatternNote, 'graces'>,
  graces: readonly ReadGrace[],
  levelOf: (head: ReadHead) => Level,
): PatternNote {
  const sounds = graces.map(({ head }) => ({ voice: head.voice, level: levelOf(head) }));
  const isPlain = sounds.every(({ voice, level }) => voice === stroke.voice && level === 'tap');
  return {
    ...stroke,
    graces: graces.map(({ limb }) => limb),
    ...(!isPlain && { graceSounds: sounds }),
  };
}
