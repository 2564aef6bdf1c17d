import type { Kit } from './kit';
import { DOUBLE_TRIGGER, faultLimits, GENUINE, padFault } from './pad-fault';

/** Strokes may arrive this much out of order, integer microseconds. */
const LATE_BY_US = 1_000_000;
/** Strokes kept in sight: far more than fit on a MIDI cable in the time above. */
const IN_SIGHT = 4096;

/**
 * The twin of `setAside` for strokes as they arrive. After `add` the fields tell which earlier
 * strokes changed: the first `changedCount` entries of `changedIndex` (the index they were added
 * with) and `changedTo` (1 double trigger, 2 crosstalk). A stroke once set aside stays so.
 */
export interface LiveSetAside {
  /** 0 when the stroke is kept, else why not. `group` is a number of `padGroups`. */
  add(index: number, timeUs: number, group: number, velocity: number): number;
  readonly changedCount: number;
  readonly changedIndex: Int32Array;
  readonly changedTo: Uint8Array;
  reset(): void;
}

/**
 * Sets aside double triggers and crosstalk stroke by stroke, without allocating and in bounded
 * memory. It ends where `setAside` ends whenever no stroke arrives more than a second out of order.
 *
 * @example createSetAside(GENERAL_MIDI).add(0, 0, 0, 100) // => 0
 */
export function createSetAside(kit: Kit): LiveSetAside {
  const limits = faultLimits(kit);
  const { reachUs } = limits;
  const times = new Float64Array(IN_SIGHT);
  const indices = new Int32Array(IN_SIGHT);
  const groups = new Int16Array(IN_SIGHT);
  const velocities = new Uint8Array(IN_SIGHT);
  const reasons = new Uint8Array(IN_SIGHT);
  const columns = [times, indices, groups, velocities, reasons];
  let count = 0;

  const live = {
    changedCount: 0,
    changedIndex: new Int32Array(IN_SIGHT),
    changedTo: new Uint8Array(IN_SIGHT),
    reset() {
      count = 0;
      live.changedCount = 0;
    },
    add(index: number, timeUs: number, group: number, velocity: number): number {
      live.changedCount = 0;
      if (count === IN_SIGHT) forget();
      const at = insert(index, timeUs, group, velocity);
      for (let i = at - 1; i >= 0 && timeUs - times[i]! <= reachUs; i--) weigh(at, i);
      for (let i = at + 1; i < count && times[i]! - timeUs <= reachUs; i++) weigh(at, i);
      return reasons[at]!;
    },
  };

  /** Drops what no stroke can meet any more, and at least half when the kit floods us. */
  function forget(): void {
    const horizonUs = times[count - 1]! - LATE_BY_US - reachUs;
    let drop = 0;
    while (drop < count && times[drop]! < horizonUs) drop++;
    drop = Math.max(drop, IN_SIGHT / 2);
    for (const column of columns) column.copyWithin(0, drop, count);
    count -= drop;
  }

  function insert(index: number, timeUs: number, group: number, velocity: number): number {
    let at = count;
    while (at > 0 && times[at - 1]! > timeUs) {
      times[at] = times[at - 1]!;
      indices[at] = indices[at - 1]!;
      groups[at] = groups[at - 1]!;
      velocities[at] = velocities[at - 1]!;
      reasons[at] = reasons[at - 1]!;
      at--;
    }
    times[at] = timeUs;
    indices[at] = index;
    groups[at] = group;
    velocities[at] = velocity;
    reasons[at] = GENUINE;
    count++;
    return at;
  }

  function weigh(added: number, other: number): void {
    const mine = faultOf(added, other);
    if (mine !== GENUINE && reasons[added] !== DOUBLE_TRIGGER) reasons[added] = mine;
    const theirs = faultOf(other, added);
    if (theirs === GENUINE || reasons[other] === DOUBLE_TRIGGER || reasons[other] === theirs)
      return;
    reasons[other] = theirs;
    live.changedIndex[live.changedCount] = indices[other]!;
    live.changedTo[live.changedCount] = theirs;
    live.changedCount++;
  }

  const faultOf = (stroke: number, other: number): number =>
    padFault(
      limits,
      times[stroke]! - times[other]!,
      groups[other]! * limits.groups + groups[stroke]!,
      velocities[stroke]!,
      velocities[other]!,
    );

  return live;
}
