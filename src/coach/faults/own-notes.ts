import { isAsWritten } from '../../score/figures';
import type { JudgedNote } from '../../score/judged-note';
import type { Evidence } from '../evidence/evidence';
import { finding, type Finding } from '../finding';
import type { OwnFault } from '../wording';
import { MIN_TIMES } from './where';

/** A layer's own notes that are wrong so often come before everything about time. */
const MOSTLY = 2 / 3;
/** Share of the own notes' faults that something else said covers. Chosen, not measured. */
const COVERED = 0.8;
/** Before whatever touches any share of the notes. */
const FIRST = 2;

/**
 * The notes that the layer itself added or changed, where most of them are wrong and the others are not. What is said
 * of them by another finding already is moved to the front; else it is said here.
 */
export function ownNotesFirst({ judgement, layer, plan }: Evidence, found: Finding[]): Finding[] {
  if (layer < 2) return found;
  const { notes } = judgement;
  const own = notes.filter(({ due }) => due.note.layers.includes(layer));
  const wrong = own.filter((note) => !isAsWritten(note));
  const others = notes.length - own.length;
  const othersWrong = notes.filter((note) => !isAsWritten(note)).length - wrong.length;
  if (wrong.length < MIN_TIMES || wrong.length < MOSTLY * own.length || others === 0) return found;
  if (othersWrong / others > wrong.length / own.length / 2) return found;
  const dues = new Set(wrong.map(({ due }) => due));
  const shared = ({ notes: of }: Finding) => of.filter((due) => dues.has(due)).length;
  const same = found.find((one) => shared(one) >= COVERED * Math.max(dues.size, one.notes.length));
  const elsewhere = found.filter((one) => one !== same && shared(one) < COVERED * one.notes.length);
  if (same) return [{ ...same, weight: FIRST }, ...elsewhere];
  const facts = {
    layerName: plan.phrase.layers[layer - 1]!.name,
    how: commonest(wrong.map(faultOf)),
    times: wrong.length,
    of: own.length,
  };
  return [finding('own notes wrong', FIRST, [...dues], facts), ...elsewhere];
}

function faultOf({ verdict, levelVerdict }: JudgedNote): OwnFault {
  if (verdict === 'wrong voice') return 'in another voice';
  if (verdict !== 'in time') return verdict;
  return levelVerdict === 'too loud' ? 'too loud' : 'too soft';
}

function commonest<T>(values: readonly T[]): T {
  const counts = new Map<T, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a)[0]![0];
}
