import { gcd, lcm } from '../../time/whole';
import type { DraftGrace, DraftStroke } from './draft';
import { changedGrid, gridAt, rootGrid, type Grid } from '../model/grid';
import { layOn } from './lay-on';
import type { Level } from '../model/level';
import { LIMBS, type Limb } from '../model/limb';
import { looksBeyondCycle } from './matches-selector';
import type { Change, Layer, Phrase, Selector } from '../model/phrase';
import { voiceNumber, type Voice } from '../model/voice';

/** A sounding note of a cycle before it gets its place in time. */
export interface PatternNote {
  /** Partials from the cycle's start, from 0; in a pickup, negative partials from the downbeat. */
  readonly partial: number;
  readonly position: number;
  readonly graceStep: number;
  /** The limb of the main note of its partial that it is a grace note of; undefined for a main note. */
  readonly graceOf: Limb | undefined;
  readonly limb: Limb;
  readonly voice: Voice;
  readonly level: Level;
  readonly layers: readonly number[];
}

/** A phrase with its layers up to one laid on, ready to give any cycle. */
export interface LaidPhrase {
  readonly phrase: Phrase;
  readonly grid: Grid;
  /** Cycles after which the selections repeat; Infinity when that is beyond counting. */
  readonly period: number;
  /** Sounding notes of a cycle (1-based; 0 is the pickup) in the order they are played. */
  pattern(cycle: number): readonly PatternNote[];
}

/**
 * Lays a phrase's layers (1-based, up to `layer`) on. Cycles alike are laid on once and kept as
 * long as the answer is.
 *
 * @throws RangeError when the phrase has no such layer.
 */
export function layPhrase(phrase: Phrase, layer: number): LaidPhrase {
  const grid = gridAt(phrase, layer);
  const period = selectionPeriod(phrase, layer);
  const known = new Map<number, readonly PatternNote[]>();
  return {
    phrase,
    grid,
    period,
    pattern(cycle) {
      const alike = cycle === 0 ? 0 : ((cycle - 1) % period) + 1;
      let notes = known.get(alike);
      if (!notes) known.set(alike, (notes = soundingNotes(layOn(phrase, layer, alike))));
      return notes;
    },
  };
}

/**
 * Cycles after which every change up to a layer selects the same again: one, unless a change looks
 * at the beats of the bar or counts partials of its own.
 */
export const selectionPeriod = (phrase: Phrase, layer: number): number =>
  phrase.layers
    .slice(0, layer)
    .reduce((below, one, i) => laidGrid(below, one, i + 1, phrase.cycle), bareGrid(phrase)).period;

/** How a layer's partials lie, and after how many cycles its selections and those below repeat. */
export interface LaidGrid {
  readonly grid: Grid;
  /** Infinity when that is beyond counting. */
  readonly period: number;
}

/** Before the first layer. */
export const bareGrid = (phrase: Phrase): LaidGrid => ({ grid: rootGrid(phrase), period: 1 });

/** With one layer more (1-based) on a cycle of so many partials. */
export function laidGrid(below: LaidGrid, layer: Layer, number: number, cycle: number): LaidGrid {
  let { grid, period } = below;
  const repeatsWith = (partials: number) => {
    if (period === Infinity) return;
    period = lcm(period, partials / gcd(partials, cycle));
    if (period > Number.MAX_SAFE_INTEGER) period = Infinity;
  };
  for (const change of layer.changes) {
    if (change.kind === 'accentEvery') repeatsWith(change.accentEvery);
    if ('where' in change)
      for (const partials of roundsOf(change.where, grid.barPartials)) repeatsWith(partials);
    grid = changedGrid(grid, change, number);
  }
  return { grid, period };
}

/** Partials after which each of the places that a selector names, whatever the cycle, comes round again. */
const roundsOf = ({ beats, every, not, any = [] }: Selector, barPartials: number): number[] => [
  ...(beats ? [barPartials] : []),
  ...(every ? [every.partials] : []),
  ...(not ? roundsOf(not, barPartials) : []),
  ...any.flatMap((member) => roundsOf(member, barPartials)),
];

/** Whether what a change does to a cycle depends on where the cycle lies. */
export const looksAtPlace = (change: Change): boolean =>
  change.kind === 'accentEvery' || ('where' in change && looksBeyondCycle(change.where));

/** The sounding notes of a cycle in the order they are played. */
export function soundingNotes(strokes: readonly DraftStroke[]): PatternNote[] {
  const notes: PatternNote[] = [];
  for (const stroke of strokes) {
    if (stroke.silent) continue;
    const { graces } = stroke;
    for (let i = 0; i < graces.length; i++)
      if (!graces[i]!.silent) notes.push(patternNote(stroke, graces[i]!, graces.length - i));
    notes.push(patternNote(stroke, stroke, 0));
  }
  for (let i = 1; i < notes.length; i++)
    if (playedBefore(notes[i - 1]!, notes[i]!) > 0) return notes.sort(playedBefore);
  return notes;
}

function patternNote(
  { position, limb: mainLimb }: DraftStroke,
  { limb, voice, level, layers }: DraftGrace,
  graceStep: number,
): PatternNote {
  const partial = position < 0 ? position : position - 1;
  const graceOf = graceStep > 0 ? mainLimb : undefined;
  return { partial, position, graceStep, graceOf, limb, voice, level, layers };
}

const playedBefore = (a: PatternNote, b: PatternNote): number =>
  a.partial - b.partial ||
  b.graceStep - a.graceStep ||
  voiceNumber(a.voice) - voiceNumber(b.voice) ||
  LIMBS.indexOf(a.limb) - LIMBS.indexOf(b.limb);
