/** In which steps a clock is told, and what that does to offsets. */
export interface ClockResolution {
  /** ms; 0 while it is not known. */
  readonly stepMs: number;
  /** Standard deviation that the steps alone add to every offset: step / √12, of a uniform error (IEEE 1057). */
  readonly addedSpreadMs: number;
  /** `fine` and `coarse` can be practised with; `useless`: the steps are wider than the tolerance. */
  readonly name: 'unknown' | 'fine' | 'coarse' | 'useless';
  /** For the player: what the steps mean, and what to do about them. */
  readonly sentence: string;
}

export interface ResolutionWatch {
  /** Takes a reading of `performance.now()` in, ms; in any rhythm. */
  add(readingMs: number): void;
  readonly resolution: ClockResolution;
}

/** Chosen, not measured: so many differing readings all on one grid are no chance. */
const ENOUGH_READINGS = 20;
/** Under the finest step of W3C High Resolution Time, 5 µs, and over the rounding of doubles after months. */
const SAME_MS = 0.0015;
/** Chosen: browsers in their usual state give 0.1 ms or better; half a millisecond adds 0.14 ms of spread. */
const COARSE_MS = 0.5;
/** Chosen: from here on the steps alone add 5.8 ms, a sixth of the widest tolerance. */
const USELESS_MS = 20;

/**
 * Greatest common step of two lengths, ms, in whole microseconds: browsers' steps are whole ones, and
 * in doubles Euclid's algorithm would blow the last bits up into steps of their own.
 */
function commonStep(a: number, b: number): number {
  let larger = Math.round(a * 1000);
  let smaller = Math.round(b * 1000);
  while (smaller > 0) [larger, smaller] = [smaller, larger % smaller];
  return larger / 1000;
}

/**
 * What steps of `stepMs` mean for the figures.
 *
 * @example resolutionOf(100).name // => 'useless'
 */
export function resolutionOf(stepMs: number): ClockResolution {
  const addedSpreadMs = stepMs / Math.sqrt(12);
  const told = `Times come in steps of ${Number(stepMs.toPrecision(2))} ms, which add ${Number(addedSpreadMs.toPrecision(2))} ms of spread to every offset`;
  if (stepMs < COARSE_MS)
    return {
      stepMs,
      addedSpreadMs,
      name: 'fine',
      sentence: `${told}: too little to matter.`,
    };
  if (stepMs < USELESS_MS)
    return {
      stepMs,
      addedSpreadMs,
      name: 'coarse',
      sentence: `${told}. Single offsets are less sure; means over many strokes hold. The browser’s protection against fingerprinting does this.`,
    };
  return {
    stepMs,
    addedSpreadMs,
    name: 'useless',
    sentence: `${told}: offsets mean nothing here. Turn off the browser’s protection against fingerprinting for this page, or use another browser.`,
  };
}

const UNKNOWN: ClockResolution = {
  stepMs: 0,
  addedSpreadMs: 0,
  name: 'unknown',
  sentence: 'The steps of the clock are not known yet.',
};

/**
 * Finds the steps of a clock from its readings: the greatest common step of the times between them.
 * It works whatever the rhythm of reading, since a coarsened clock only ever tells whole steps.
 */
export function createResolutionWatch(): ResolutionWatch {
  let last: number | undefined;
  let stepMs = 0;
  let differing = 0;
  /** Times between readings that are all alike may be the reader's rhythm; shorter or other ones tell the clock's. */
  let telling = false;
  let resolution = UNKNOWN;
  return {
    add(readingMs) {
      const before = last;
      last = readingMs;
      const between = before === undefined ? 0 : Math.abs(readingMs - before);
      const isRepeated = between <= SAME_MS;
      if (before !== undefined && isRepeated) telling = true;
      if (isRepeated) return;
      if (stepMs !== 0 && Math.abs(between - stepMs) > SAME_MS) telling = true;
      const next = stepMs === 0 ? between : commonStep(stepMs, between);
      differing++;
      const isNew = resolution === UNKNOWN || next < stepMs - SAME_MS;
      stepMs = next;
      if (telling && isNew && differing >= ENOUGH_READINGS) resolution = resolutionOf(stepMs);
    },
    get resolution() {
      return resolution;
    },
  };
}
