import type { PracticeBetween } from './comparisons';

/** What the log says of a take. */
export interface LogTake {
  readonly id: string;
  readonly player?: string | undefined;
  /** Every layer at every tempo in the order of playing. */
  readonly trials?: readonly (PracticeBetween & { readonly code?: string | undefined })[];
}

/** The take that another is compared with, and what the same player practised in between. */
export interface EarlierTake {
  readonly id: string;
  readonly between: readonly PracticeBetween[];
}

/** Of the tempo of a take, the least that an earlier one is compared at: what was slower was practice for it. Chosen, not measured. */
const LEAST_TEMPO = 0.9;

/**
 * The last take before another in which the same player played the same notes, at no much slower tempo, and long enough for
 * anything to be told; undefined where there is none, or nothing was practised in between. Where that take told that another
 * tempo was played than the click's, the same notes at other tempi since were its practice.
 *
 * @param takes newest first
 * @example earlierTake([{ id: 'c', player: 'kit', trials: [{ target: 'whole', bpm: 96 }] }, { id: 'b', player: 'kit', trials: [{ target: 'part', bpm: 72 }] }, { id: 'a', player: 'kit', trials: [{ target: 'whole', bpm: 96, code: 'limb off' }] }], 'c').id // => 'a'
 */
export function earlierTake(takes: readonly LogTake[], id: string): EarlierTake | undefined {
  const at = takes.findIndex((take) => take.id === id);
  const { player, trials: own } = takes[at] ?? {};
  const last = own?.at(-1);
  if (!last || player === undefined) return undefined;
  const between: PracticeBetween[] = [];
  let isTempoPractised = false;
  for (const take of takes.slice(at + 1)) {
    if (take.player !== player) continue;
    const trial = take.trials?.at(-1);
    const isDecided = trial?.code !== undefined && trial.code !== 'undecided';
    if (isDecided && trial.target === last.target && trial.bpm >= LEAST_TEMPO * last.bpm) {
      const isTold =
        trial.code === 'other tempo' && between.some(isAtOtherTempo(trial.target, trial.bpm));
      if (isTempoPractised ? isTold : between.length > 0) return { id: take.id, between };
      if (trial.bpm === last.bpm) return undefined;
      isTempoPractised = true;
    }
    between.push(...(take.trials ?? []));
  }
  return undefined;
}

const isAtOtherTempo = (notes: string, bpm: number) => (one: PracticeBetween) =>
  one.target === notes && one.bpm !== bpm;
