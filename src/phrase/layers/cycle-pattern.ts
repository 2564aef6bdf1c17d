import { gcd, lcm } from '../../time/whole';
import type { LayerGrace, LayerStroke } from './layer-stroke';
import type { Grid } from '../model/grid';
import { LIMBS, type Limb } from '../model/limb';
import { looksBeyondCycle } from './matches-selector';
import type { Change, Phrase, Selector } from '../model/phrase';
import type { NoteSound } from '../model/note';
import { voiceNumber } from '../model/voice';

/** A sounding note of a cycle before it gets its place in time. */
export interface CycleNote extends NoteSound {
  /** Partials from the cycle's start, from 0; in a pickup, negative partials from the downbeat. */
  readonly partial: number;
  readonly position: number;
  readonly graceStep: number;
  /** The limb of the main note of its partial that it is a grace note of; undefined for a main note. */
  readonly graceOf: Limb | undefined;
  readonly layers: readonly number[];
}

/** A phrase with its layers up to one laid on, ready to give any cycle. */
export interface LayeredPhrase {
  readonly phrase: Phrase;
  readonly grid: Grid;
  /** Cycles after which the selections repeat; Infinity when that is beyond counting. */
  readonly period: number;
  /** So many cycles can be laid on with as much work as a check takes at most. */
  readonly cyclesInReach: number;
  /** Sounding notes of a cycle (1-based; 0 is the pickup) in the order they are played. */
  pattern(cycle: number): readonly CycleNote[];
}

/**
 * Cycles of so many partials after which a layer's changes select the same again, with those below it: Infinity when
 * that is beyond counting. `grids` are those that the changes meet.
 */
export function periodWith(
  below: number,
  changes: readonly Change[],
  grids: readonly Grid[],
  cycle: number,
): number {
  let period = below;
  const repeatsWith = (partials: number) => {
    if (period === Infinity) return;
    period = lcm(period, partials / gcd(partials, cycle));
    if (period > Number.MAX_SAFE_INTEGER) period = Infinity;
  };
  changes.forEach((change, i) => {
    if (change.kind === 'accentEvery') repeatsWith(change.accentEvery);
    if ('where' in change)
      for (const partials of roundsOf(change.where, grids[i]!.barPartials)) repeatsWith(partials);
  });
  return period;
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
export function soundingNotes(strokes: readonly LayerStroke[]): CycleNote[] {
  const notes: CycleNote[] = [];
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
  { position, limb: mainLimb }: LayerStroke,
  { limb, voice, level, layers }: LayerGrace,
  graceStep: number,
): CycleNote {
  const partial = position < 0 ? position : position - 1;
  const graceOf = graceStep > 0 ? mainLimb : undefined;
  return { partial, position, graceStep, graceOf, limb, voice, level, layers };
}

const playedBefore = (a: CycleNote, b: CycleNote): number =>
  a.partial - b.partial ||
  b.graceStep - a.graceStep ||
  voiceNumber(a.voice) - voiceNumber(b.voice) ||
  LIMBS.indexOf(a.limb) - LIMBS.indexOf(b.limb);
