import { cycleNotes, pickupNotes } from '../phrase/layers/expand';
import type { LayerShape } from '../phrase/layers/layer-shape';
import type { Note } from '../phrase/model/note';
import { voiceNumber } from '../phrase/model/voice';
import { hitWindow } from './hit-window';
import {
  cycleSpan,
  hasPickup,
  passageSpan,
  type CycleSpan,
  type PassageSpan,
  type Plan,
} from './plan';
import type { TimedNote } from './timed-note';

/** How far ahead of its main note a grace note is due, ms a step. Chosen, not measured. */
export const GRACE_STEP_MS = 30;
/** How far ahead of its cycle a note may be due, microseconds: a drag has two grace notes. */
export const MOST_AHEAD_US = 2 * GRACE_STEP_MS * 1000;
/** Grace notes keep within this share of a partial a step, behind the note before. Chosen, not measured. */
export const GRACE_STEP_OF_PARTIAL = 1 / 4;

/**
 * The notes of `count` cycles of a passage from `fromCycle` (1-based) on, in time order; the first
 * cycle brings the passage's pickup. What the next passage or its pickup replaces is left out.
 */
export function notesOfCycles(
  plan: Plan,
  passage: PassageSpan,
  fromCycle: number,
  count: number,
): TimedNote[] {
  const { phrase, tempo, windows } = plan;
  const { layer, shape, latePartials } = passage;
  const due: TimedNote[] = [];
  const begins = fromCycle === 1 && count > 0 && hasPickup(passage);
  const pickup = begins ? pickupNotes(phrase, layer) : [];
  const partialBeats = shape.partialBeats.valueOf();
  for (const written of [...pickup, ...cycleNotes(phrase, layer, fromCycle, count, latePartials)]) {
    const note = passage.fromBar === 1 ? written : inPassage(passage, written);
    const { onset } = note;
    if (passage.notesTo && onset.compare(passage.notesTo) >= 0) break;
    const partialUs = (partialBeats * 60e6) / tempo.bpmAt(onset);
    due.push({
      note,
      passage: passage.index,
      layer,
      timeUs: tempo.usAt(onset) - written.graceStep * graceStepUs(partialUs, shape),
      ...hitWindow(partialUs, windows),
    });
  }
  return due.sort(inTimeOrder);
}

const inPassage = ({ from, fromBar }: PassageSpan, written: Note): Note => ({
  ...written,
  onset: written.onset.add(from),
  bar: written.bar + fromBar - 1,
});

/**
 * Every note due up to and including `endUs`, in time order: the whole target of a plan.
 *
 * @example timedNotes({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, 500000).map(({ timeUs }) => timeUs) // => [0, 166667, 333333, 500000]
 */
export function timedNotes(plan: Plan, endUs: number): TimedNote[] {
  const isAfter = ({ from }: CycleSpan) => plan.tempo.usAt(from) - MOST_AHEAD_US > endUs;
  return plan.passages
    .flatMap((_, index) => notesOfPassage(plan, index, { isAfter }))
    .filter(({ timeUs }) => timeUs <= endUs)
    .sort(inTimeOrder);
}

/** Which cycles of a passage are left out: the first ones, as long as they lie before, and from the first on that lies after. */
export interface CyclesLeftOut {
  readonly isBefore?: (span: CycleSpan) => boolean;
  readonly isAfter: (span: CycleSpan) => boolean;
}

/** The notes of a passage (0-based) of a plan, in time order. */
export function notesOfPassage(
  plan: Plan,
  index: number,
  { isBefore = () => false, isAfter }: CyclesLeftOut,
): TimedNote[] {
  const passage = passageSpan(plan, index);
  const first = firstCycle((cycle) => {
    const span = cycleSpan(passage, cycle);
    return span !== undefined && isBefore(span);
  });
  let end = first;
  if (first === 1 && cycleSpan(passage, 1)) end++;
  for (;;) {
    const span = cycleSpan(passage, end);
    if (!span || isAfter(span)) break;
    end++;
  }
  return notesOfCycles(plan, passage, first, end - first);
}

/** The first cycle, 1-based, that does not lie before, where those that do come first. */
function firstCycle(liesBefore: (cycle: number) => boolean): number {
  let cycle = 1;
  while (liesBefore(cycle)) cycle *= 2;
  let before = Math.floor(cycle / 2);
  while (cycle - before > 1) {
    const middle = Math.floor((before + cycle) / 2);
    if (liesBefore(middle)) before = middle;
    else cycle = middle;
  }
  return cycle;
}

/**
 * How far ahead of the next note of its stroke each grace note is due, integer microseconds. Swing shortens every second
 * partial to 2/(1 + ratio) of the written one; grace notes keep within that.
 */
export function graceStepUs(partialUs: number, shape: Pick<LayerShape, 'swing'>): number {
  const shortest = shape.swing ? (partialUs * 2) / (1 + shape.swing.valueOf()) : partialUs;
  return Math.round(Math.min(GRACE_STEP_MS * 1000, shortest * GRACE_STEP_OF_PARTIAL));
}

/** Of notes due together the one whose voice stands higher comes first. */
export const inTimeOrder = (a: TimedNote, b: TimedNote): number =>
  a.timeUs - b.timeUs || voiceNumber(a.note.voice) - voiceNumber(b.note.voice);
