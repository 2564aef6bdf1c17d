import { median } from 'simple-statistics';
import type { LevelBoundaries } from '../kit/kit';
import type { Stroke } from '../kit/stroke';
import type { Voice } from '../phrase/model/voice';
import type { JudgedNote } from '../score/judged-note';
import type { Judgement } from '../score/judge';
import { levelVerdict } from '../score/level-verdict';
import { firstFrom } from '../time/first-from';

/**
 * Lost place: the phrase goes on, some partials late or early. For every cycle, count the notes that
 * a stroke of their voice meets within the tolerance when all notes are moved by k partials. A cycle
 * has slipped by k when at least ENOUGH of it is met there and no more than half as much where it is
 * written; a run of such cycles with one k is told. Where voices alone cannot tell (a stream on one
 * pad), a stroke must also have its note's level to count. Of two shifts that explain a cycle equally
 * well, as in a phrase that repeats within its cycle, the smaller is told, and late before early.
 */
export interface Slip {
  /** Positive is late. */
  readonly partials: number;
  /** Cycle (1-based, of its passage) at which it begins, and for how many. */
  readonly cycle: number;
  readonly cycles: number;
  /** First and last note that it touches, integer microseconds. */
  readonly fromUs: number;
  readonly toUs: number;
}

/** Share of a cycle's notes met at the shifted place. Chosen, not measured. */
const ENOUGH = 0.7;
/** Shortest slip told. Chosen, not measured. */
const MIN_CYCLES = 2;
const MIN_NOTES = 12;
/** Part of a partial that a stroke may lie off for its note to be the nearest. */
const NEARER = 0.45;
/** Farthest shift looked for, partials. Chosen, not measured. */
const FARTHEST = 16;

/**
 * The longest slip in a take, if there is one.
 *
 * @param boundaries the player's level boundaries for a pad (MIDI note number)
 * @example lostPlace({ notes: [], extras: [] }, () => ({ ghostMax: 50, accentMin: 95 })) // => undefined
 */
export function lostPlace(
  judgement: Judgement,
  boundaries: (pad: number) => LevelBoundaries,
): Slip | undefined {
  const cycles = cyclesOf(judgement.notes);
  const nearby = strokesByVoice(judgement);
  const meets = (level: boolean) => (note: JudgedNote, shiftUs: number, withinUs: number) =>
    nearby(note.due.note.voice, note.due.timeUs + shiftUs, withinUs).some(
      ({ velocity, pad }) =>
        !level ||
        levelVerdict(note.due.note, velocity, boundaries(pad), note.asked) === 'as written',
    );
  return longestSlip(cycles, meets(false)) ?? longestSlip(cycles, meets(true));
}

type Meets = (note: JudgedNote, shiftUs: number, withinUs: number) => boolean;

interface Cycle {
  readonly number: number;
  readonly notes: readonly JudgedNote[];
  readonly partialUs: number;
  readonly farthest: number;
}

function longestSlip(cycles: readonly Cycle[], meets: Meets): Slip | undefined {
  const shifts = cycles.map((cycle) => slipOf(cycle, meets));
  let longest: { from: number; to: number } | undefined;
  for (let from = 0; from < cycles.length;) {
    let to = from + 1;
    while (to < cycles.length && shifts[to] === shifts[from]) to++;
    const notes = cycles.slice(from, to).reduce((sum, cycle) => sum + cycle.notes.length, 0);
    const told = shifts[from] !== 0 && to - from >= MIN_CYCLES && notes >= MIN_NOTES;
    if (told && to - from > (longest ? longest.to - longest.from : 0)) longest = { from, to };
    from = to;
  }
  if (!longest) return undefined;
  const first = cycles[longest.from]!;
  const last = cycles[longest.to - 1]!;
  return {
    partials: shifts[longest.from]!,
    cycle: first.number,
    cycles: longest.to - longest.from,
    fromUs: first.notes[0]!.due.timeUs,
    toUs: last.notes.at(-1)!.due.timeUs,
  };
}

/** By how many partials this cycle has slipped; 0 when it has not, or nothing explains it. */
function slipOf({ notes, partialUs, farthest }: Cycle, meets: Meets): number {
  const met = (shift: number, withinUs = 0) =>
    notes.filter((note) => meets(note, shift * partialUs, Math.max(withinUs, note.due.toleranceUs)))
      .length;
  // Whoever plays a note late or early by less than half a partial has kept the place.
  const asWritten = met(0, NEARER * partialUs);
  if (asWritten > notes.length / 2) return 0;
  let best = { shift: 0, met: 0 };
  for (let distance = 1; distance <= farthest; distance++)
    for (const shift of [distance, -distance]) {
      const found = met(shift);
      if (found > best.met) best = { shift, met: found };
    }
  return best.met >= ENOUGH * notes.length && asWritten <= best.met / 2 ? best.shift : 0;
}

function cyclesOf(notes: readonly JudgedNote[]): Cycle[] {
  const groups = new Map<string, JudgedNote[]>();
  for (const note of notes) {
    const { cycle, graceStep } = note.due.note;
    if (cycle < 1 || graceStep > 0) continue;
    const key = `${note.due.passage}:${cycle}`;
    const group = groups.get(key);
    if (group) group.push(note);
    else groups.set(key, [note]);
  }
  const partials = new Map<number, number[]>();
  for (const group of groups.values()) {
    const [first, last] = [group[0]!.due, group.at(-1)!.due];
    const steps = last.note.position - first.note.position;
    if (steps < 1) continue;
    const lengths = partials.get(first.passage) ?? [];
    lengths.push((last.timeUs - first.timeUs) / steps);
    partials.set(first.passage, lengths);
  }
  return [...groups.values()].flatMap((group) => {
    const { passage, note } = group[0]!.due;
    const lengths = partials.get(passage);
    if (!lengths) return [];
    const span = group.at(-1)!.due.note.position;
    const farthest = Math.min(FARTHEST, Math.floor(span / 2));
    return [{ number: note.cycle, notes: group, partialUs: median(lengths), farthest }];
  });
}

const timeOf = ({ timeUs }: Stroke) => timeUs;

/** Strokes of a voice around a time, edges closed, whether they answer a note or not. */
function strokesByVoice({ notes, extras }: Judgement) {
  const byVoice = new Map<Voice, Stroke[]>();
  for (const stroke of [...notes.flatMap(({ stroke }) => stroke ?? []), ...extras]) {
    const list = byVoice.get(stroke.voice);
    if (list) list.push(stroke);
    else byVoice.set(stroke.voice, [stroke]);
  }
  for (const list of byVoice.values()) list.sort((a, b) => a.timeUs - b.timeUs);
  return (voice: Voice, timeUs: number, withinUs: number): readonly Stroke[] => {
    const list = byVoice.get(voice) ?? [];
    const first = firstFrom(list, timeOf, timeUs - withinUs);
    let end = first;
    while (end < list.length && list[end]!.timeUs <= timeUs + withinUs) end++;
    return list.slice(first, end);
  };
}
