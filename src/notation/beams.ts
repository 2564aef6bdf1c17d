import type { WrittenValue } from './written-values';

/** A beam, from note to note of a group, by their numbers in the group's values; level 1 is the outermost. */
export interface Beam {
  readonly level: number;
  readonly from: number;
  readonly to: number;
  /** A short beam on one note alone points to its neighbour. */
  readonly stub: 'left' | 'right' | undefined;
}

/** How the notes of a beat hang together. */
export interface BeamGroup {
  readonly beams: readonly Beam[];
  /** Notes that stand alone and carry flags instead, by their numbers. */
  readonly flagged: readonly number[];
}

/**
 * Beams over the notes of one beat. Notes without flags are not beamed and part what is.
 *
 * @example beamGroup([{ from: 0, partials: 3, flags: 1, dotted: true, isRest: false }, { from: 3, partials: 1, flags: 2, dotted: false, isRest: false }]).beams // => [{ level: 1, from: 0, to: 1, stub: undefined }, { level: 2, from: 1, to: 1, stub: 'left' }]
 */
export function beamGroup(values: readonly WrittenValue[]): BeamGroup {
  const beams: Beam[] = [];
  const flagged: number[] = [];
  for (const run of runs(values)) {
    const first = run[0]!;
    if (run.length === 1) {
      flagged.push(first);
      continue;
    }
    beams.push({ level: 1, from: first, to: run.at(-1)!, stub: undefined });
    const most = Math.max(...run.map((i) => values[i]!.flags));
    for (let level = 2; level <= most; level++)
      for (const [from, to] of stretches(run, (i) => values[i]!.flags >= level))
        beams.push({
          level,
          from,
          to,
          stub: from < to ? undefined : from === first ? 'right' : 'left',
        });
  }
  return { beams, flagged };
}

/** Notes with flags that no longer note parts. */
function runs(values: readonly WrittenValue[]): number[][] {
  const found: number[][] = [];
  const run: number[] = [];
  values.forEach(({ flags, isRest }, i) => {
    if (isRest) return;
    if (flags >= 1) run.push(i);
    if (flags < 1 && run.length > 0) found.push(run.splice(0));
  });
  if (run.length > 0) found.push(run);
  return found;
}

/** Neighbours in a run that share a property and have nothing between them. */
function stretches(run: readonly number[], holds: (i: number) => boolean): [number, number][] {
  const found: [number, number][] = [];
  for (const i of run) {
    if (!holds(i)) continue;
    const last = found.at(-1);
    if (last && last[1] === i - 1) last[1] = i;
    else found.push([i, i]);
  }
  return found;
}
