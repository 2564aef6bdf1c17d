import { beats, type Beats } from '../../time/beats';
import { remainder } from '../../time/whole';
import type { LayeredPhrase, CycleNote } from './cycle-pattern';
import { layerStack } from './layer-stack';
import type { Note } from '../model/note';
import type { Phrase } from '../model/phrase';
import { straightOr, swings, swungPartial } from '../model/swing';

/** How far to expand: whole cycles, or what begins before so many bars are over. */
export type Span = { readonly cycles: number } | { readonly bars: number };

/**
 * The target of a phrase at a layer (1-based): the pickup and everything after it up to the span's end, by
 * onset, then grace notes ahead of their main note, then the voice's row. Onsets are exact beats
 * from bar 1 beat 1.
 *
 * @throws RangeError when the phrase has no such layer, or the span is not a whole number from 0.
 * @example expand(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1, { cycles: 2 }).map((note) => note.onset.toFraction()) // => ['0', '1/4', '1/2', '3/4', '1', '5/4']
 */
export function expand(phrase: Phrase, layer: number, span: Span): readonly Note[] {
  const laid = layerStack(phrase, layer);
  const notes: Note[] = [];
  const write = noteWriter(laid, notes);
  write(0, Infinity);
  if ('cycles' in span) {
    checkCount(span.cycles);
    for (let cycle = 1; cycle <= span.cycles; cycle++) write(cycle, Infinity);
  } else {
    checkCount(span.bars);
    const { barPartials, displace } = laid.grid;
    const endPartial = span.bars * barPartials;
    const cycles = Math.ceil((endPartial - displace) / phrase.cycle);
    for (let cycle = 1; cycle <= cycles; cycle++) write(cycle, endPartial);
  }
  return notes;
}

/**
 * The notes of `cycles` cycles from `fromCycle` (1-based) on, the same as expand gives them.
 *
 * @param late so many partials later than as written, negative earlier; what swings does so where it falls then
 * @throws RangeError when the phrase has no such layer, or the cycles are no whole numbers.
 * @example cycleNotes(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1, 101, 1)[0].onset.valueOf() // => 75
 */
export function cycleNotes(
  phrase: Phrase,
  layer: number,
  fromCycle: number,
  cycles: number,
  late = 0,
): readonly Note[] {
  checkCount(fromCycle - 1);
  checkCount(cycles);
  const notes: Note[] = [];
  const write = noteWriter(layerStack(phrase, layer), notes, late);
  for (let i = 0; i < cycles; i++) write(fromCycle + i, Infinity);
  return notes;
}

/**
 * The strokes before the first downbeat, the same as expand gives them.
 *
 * @throws RangeError when the phrase has no such layer.
 */
export function pickupNotes(phrase: Phrase, layer: number): readonly Note[] {
  const notes: Note[] = [];
  noteWriter(layerStack(phrase, layer), notes)(0, Infinity);
  return notes;
}

/**
 * Where each partial from bar 1 beat 1 (0-based) of a layer (1-based) sounds, in exact beats from there.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example partialOnsets(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1)(6).toFraction() // => '3/2'
 */
export function partialOnsets(phrase: Phrase, layer: number): (partial: number) => Beats {
  const { partsABeat, partsAt } = onsetTable(layerStack(phrase, layer));
  return (partial) => beats(partsAt(partial), partsABeat);
}

/**
 * The same in whole numbers, so many parts to a beat.
 *
 * @throws RangeError when the phrase has no such layer.
 */
export const partialParts = (phrase: Phrase, layer: number): PartialParts =>
  onsetTable(layerStack(phrase, layer));

/** Where partials from bar 1 beat 1 (0-based) sound. */
export interface PartialParts {
  readonly partsABeat: number;
  readonly partsAt: (partial: number) => number;
}

function checkCount(count: number): void {
  if (!Number.isSafeInteger(count) || count < 0)
    throw new RangeError(`expected a whole number of cycles or bars, got ${count}`);
}

/** A function that writes a cycle's notes (0: the pickup) that lie before a partial from bar 1 beat 1, cycles so many partials late. */
function noteWriter(laid: LayeredPhrase, notes: Note[], late = 0) {
  const { phrase, grid } = laid;
  const { barPartials } = grid;
  const { onsets, beatOf, layersOf } = tablesOf(laid);
  return (cycle: number, endPartial: number): void => {
    const start = cycle === 0 ? 0 : (cycle - 1) * phrase.cycle + grid.displace + late;
    for (const note of laid.pattern(cycle)) {
      const partial = start + note.partial;
      if (partial >= endPartial) return;
      if (partial < 0 && cycle > 0) continue;
      notes.push({
        onset: beats(onsets.partsAt(partial), onsets.partsABeat),
        graceStep: note.graceStep,
        graceOf: note.graceOf,
        bar: Math.floor(partial / barPartials) + 1,
        beat: beatOf[remainder(partial, barPartials)]!,
        cycle,
        position: note.position,
        limb: note.limb,
        voice: note.voice,
        level: note.level,
        layers: onsets.isMoved(partial) ? layersOf(note) : note.layers,
      });
    }
  };
}

/** What the notes of a layer are written with, whichever the cycle. */
interface NoteTables {
  readonly onsets: OnsetTable;
  /** By partial of the bar, 0-based. */
  readonly beatOf: readonly Beats[];
  /** Which layers made or changed a note that the swing moves. */
  readonly layersOf: (note: CycleNote) => readonly number[];
}

const TABLES = new WeakMap<LayeredPhrase, NoteTables>();

/** Made once: a take lays out thousands of cycles, one at a time. */
function tablesOf(laid: LayeredPhrase): NoteTables {
  const known = TABLES.get(laid);
  if (known) return known;
  const { subdivision, barPartials, swungBy } = laid.grid;
  const tables = {
    onsets: onsetTable(laid),
    beatOf: Array.from({ length: barPartials }, (_, partial) =>
      beats(partial + subdivision, subdivision),
    ),
    layersOf: swingLayers(swungBy?.layer),
  };
  TABLES.set(laid, tables);
  return tables;
}

/** The layers of a note with the one that swung it (1-based; undefined where the phrase came so). */
function swingLayers(layer: number | undefined): NoteTables['layersOf'] {
  if (layer === undefined) return (note) => note.layers;
  const swung = new WeakMap<CycleNote, readonly number[]>();
  return (note) => {
    const known = swung.get(note);
    if (known) return known;
    const layers = [...new Set([...note.layers, layer])].sort((a, b) => a - b);
    swung.set(note, layers);
    return layers;
  };
}

interface OnsetTable extends PartialParts {
  /** Whether the layer that swung it last moved a partial. */
  readonly isMoved: (partial: number) => boolean;
}

/** Onsets by partial from bar 1 beat 1, in whole numbers over one denominator so that they stay exact and cheap. */
function onsetTable({ phrase, grid }: LayeredPhrase): OnsetTable {
  const { subdivision, swungBy } = grid;
  if ((grid.swing === undefined && !swungBy) || !swings(phrase.meter, subdivision))
    return { partsABeat: subdivision, partsAt: (partial) => partial, isMoved: () => false };
  const swing = straightOr(grid.swing);
  const before = straightOr(swungBy?.before.swing);
  const partsABeat = subdivision * Number(swing.n + swing.d);
  const inBeat = Array.from({ length: subdivision }, (_, partial) => {
    const onset = swungPartial(partial, subdivision, swing);
    const isMoved = !onset.equals(swungPartial(partial, subdivision, before));
    return { parts: onset.mul(partsABeat).valueOf(), isMoved };
  });
  return {
    partsABeat,
    partsAt: (partial) =>
      Math.floor(partial / subdivision) * partsABeat +
      inBeat[remainder(partial, subdivision)]!.parts,
    isMoved: (partial) => inBeat[remainder(partial, subdivision)]!.isMoved,
  };
}
