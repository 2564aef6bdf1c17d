import type { GraceSound, PatternNote, PatternStroke } from '../../phrase/decompose/target-pattern';
import type { Level } from '../../phrase/model/level';
import { isHand, type Limb } from '../../phrase/model/limb';
import { MAX_SUBDIVISION } from '../../phrase/model/phrase-file';
import { findSticking } from '../../phrase/playability/find-sticking';
import type { Beats } from '../../time/beats';
import type { Meter } from '../../time/meter';
import { limbsOf } from './limbs-of-notes';
import type { BarInTime } from './bars-in-time';
import type { ReadNote } from './read-bars';
import type { ReadHead } from './read-head';
import type { StickingStroke } from './read-sticking';
import type { UnreadMusic } from './unread-music';

/** A stroke at its partial from bar 1 beat 1. */
export interface StrokeAtPartial extends PatternStroke {
  readonly partial: number;
  readonly graces: readonly Limb[];
}

export interface BarsInPartials {
  readonly subdivision: number;
  readonly strokes: readonly StrokeAtPartial[];
  readonly unread: readonly UnreadMusic[];
  /** Of the hands' strokes, how many the file says the hand of, 0 to 1. */
  readonly stickingShare: number;
}

interface NoteInTime {
  readonly note: ReadNote;
  readonly bar: number;
  readonly beat: Beats;
}

/** Softer than this is a ghost where others are louder: the limit of the default pads, velocity of 127. */
const GHOST_TO = 50;

/**
 * The notes of bars on the partials of the coarsest subdivision that holds them all, or of `subdivision` where that does, each
 * with its limb.
 */
export function barsInPartials(
  bars: readonly BarInTime[],
  meter: Meter,
  tempoBpm: number,
  subdivision: number | undefined,
): BarsInPartials {
  const unread: UnreadMusic[] = [];
  const notes: NoteInTime[] = [];
  const stickings = new Map<string, readonly StickingStroke[]>();
  for (const { bar, number, from } of bars) {
    const beatOf = (at: Beats) => from.add(at.div(meter.quartersPerBeat));
    for (const note of bar.notes) notes.push({ note, bar: number, beat: beatOf(note.at) });
    for (const { at, strokes } of bar.stickings) {
      const key = beatOf(at).toFraction();
      stickings.set(key, [...(stickings.get(key) ?? []), ...strokes]);
    }
    for (const what of bar.unread) unread.push({ bar: number, sentence: `There is ${what}.` });
  }
  const parts = bestSubdivision(notes, subdivision);
  const together = new Map<number, NoteInTime[]>();
  for (const note of notes) {
    const partial = note.beat.mul(parts);
    if (partial.d !== 1n) {
      unread.push({
        bar: note.bar,
        sentence: `A ${note.note.voice} stroke falls between the ${parts} partials of a beat.`,
      });
      continue;
    }
    const at = partial.valueOf();
    together.set(at, [...(together.get(at) ?? []), note]);
  }
  const columns = [...together].sort(([a], [b]) => a - b);
  const isLoud = notes.some(({ note }) => (note.velocity ?? 0) > GHOST_TO);
  const levelOf = (head: ReadHead): Level =>
    head.level === 'tap' && isLoud && (head.velocity ?? Infinity) <= GHOST_TO
      ? 'ghost'
      : head.level;
  const written = columns.map(([, here]) =>
    limbsOf(
      here.map(({ note }) => note),
      stickings.get(here[0]!.beat.toFraction()) ?? [],
    ),
  );
  const likely = likelyLimbs(columns, parts, tempoBpm);
  let hands = 0;
  let told = 0;
  const strokes = columns.flatMap(([partial, here], c) => {
    const limbs = fillIn(written[c]!, likely[c]!);
    hands += limbs.filter((limb) => limb && isHand(limb)).length;
    told += written[c]!.filter((limb) => limb && isHand(limb)).length;
    return here.flatMap(({ note, bar }, i): StrokeAtPartial[] => {
      const limb = limbs[i];
      if (!limb) {
        unread.push({ bar, sentence: `No limb is left for a ${note.voice} stroke.` });
        return [];
      }
      const own = gracesOf(here, limbs, i, stickings.get(here[0]!.beat.toFraction()) ?? []);
      if (own.length > 0 && !isHand(limb))
        unread.push({
          bar,
          sentence: `A foot has no grace notes, and the ${note.voice} has some.`,
        });
      const stroke = { partial, limb, voice: note.voice, level: levelOf(note) };
      return [isHand(limb) ? withGraces(stroke, own, levelOf) : { ...stroke, graces: [] }];
    });
  });
  return { subdivision: parts, strokes, unread, stickingShare: hands === 0 ? 1 : told / hands };
}

function bestSubdivision(notes: readonly NoteInTime[], given: number | undefined): number {
  const onsets = new Map<number, number>();
  for (const { beat } of notes) onsets.set(Number(beat.d), (onsets.get(Number(beat.d)) ?? 0) + 1);
  const fitting = (parts: number) =>
    [...onsets].reduce((sum, [d, count]) => sum + (parts % d === 0 ? count : 0), 0);
  if (given !== undefined && fitting(given) === notes.length) return given;
  let best = 1;
  for (let parts = 2; parts <= MAX_SUBDIVISION; parts++)
    if (fitting(parts) > fitting(best)) best = parts;
  return best;
}

function likelyLimbs(
  columns: readonly (readonly [number, readonly NoteInTime[]])[],
  parts: number,
  tempoBpm: number,
): readonly (readonly (Limb | undefined)[])[] {
  const [first] = columns[0] ?? [0];
  const flat = columns.flatMap(([partial, here]) =>
    here.map(({ note }) => ({ partial: partial - first, voice: note.voice })),
  );
  const span = (columns.at(-1)?.[0] ?? 0) - first + parts;
  const { limbs } = findSticking(flat, span, 60e6 / (tempoBpm * parts));
  let at = 0;
  return columns.map(([, here]) => here.map(() => limbs[at++]));
}

/** The written limbs; where there is none the likely one, or the other of its pair, if it is free. */
function fillIn(
  written: readonly (Limb | undefined)[],
  likely: readonly (Limb | undefined)[],
): readonly (Limb | undefined)[] {
  const taken = new Set(written.filter((limb) => limb !== undefined));
  return written.map((limb, i) => {
    if (limb) return limb;
    const wanted = likely[i];
    const free = [wanted, wanted && OTHER[wanted]].find((one) => one && !taken.has(one));
    if (free) taken.add(free);
    return free;
  });
}

const OTHER: Readonly<Record<Limb, Limb>> = { R: 'L', L: 'R', K: 'F', F: 'K' };

/** The grace notes of a note, first to sound first: as many as its sticking says, else all that stand ahead of its line. */
function gracesOf(
  here: readonly NoteInTime[],
  limbs: readonly (Limb | undefined)[],
  i: number,
  strokes: readonly StickingStroke[],
): readonly { readonly head: ReadHead; readonly limb: Limb }[] {
  const { line } = here[i]!.note;
  const columns = here.find(({ note }) => note.line === line && note.graces.length > 0)?.note
    .graces;
  if (!columns) return [];
  const main = limbs[i]!;
  const own = strokes.find(({ limb }) => limb === main);
  const others = strokes.filter(({ graces }) => graces.length > 0);
  const count = own && others.length > 0 ? own.graces.length : columns.length;
  const isFirst = here.findIndex(
    ({ note }, k) => note.line === line && limbs[k] !== undefined && isHand(limbs[k]),
  );
  if (others.length === 0 && isFirst !== i) return [];
  // Grace notes at once belong to one main note each, in the order of the row of text.
  const before = strokes.slice(0, own ? strokes.indexOf(own) : 0);
  return columns.slice(columns.length - count).map((column, k) => {
    const step = count - k;
    const skip = before.filter(({ graces }) => graces.length >= step).length;
    const limb = own?.graces[k];
    const head =
      column.find((one) => one.limb !== undefined && one.limb === limb) ??
      column[Math.min(skip, column.length - 1)]!;
    return { head, limb: limb ?? handOf(head.limb) ?? (main === 'R' ? 'L' : 'R') };
  });
}

const handOf = (limb: Limb | undefined): Limb | undefined =>
  limb && isHand(limb) ? limb : undefined;

function withGraces(
  stroke: Omit<PatternNote, 'graces'>,
  graces: readonly { readonly head: ReadHead; readonly limb: Limb }[],
  levelOf: (head: ReadHead) => Level,
): StrokeAtPartial {
  const sounds = graces.map(({ head }): GraceSound => ({
    voice: head.voice,
    level: levelOf(head),
  }));
  const isPlain = sounds.every(({ voice, level }) => voice === stroke.voice && level === 'tap');
  return {
    ...stroke,
    graces: graces.map(({ limb }) => limb),
    ...(!isPlain && { graceSounds: sounds }),
  };
}
