/** Bars without a click, again and again: some with it, then some without. */
export interface SilentBars {
  /** Bars with the click ahead of every stretch without one, 1 or more. */
  readonly sounding: number;
  /** Bars of the first stretch without it, 1 or more. */
  readonly silent: number;
  /** How many bars longer every stretch is than the one before; 0 where all are alike. */
  readonly growBy: number;
  /** Bars of the longest. */
  readonly most: number;
  /** Whether another tempo is heard first: from the bar it begins in they are counted from the beginning. */
  readonly anewAtTempo?: boolean;
}

/** Bars in a row, 1-based, the last one included. */
export interface BarStretch {
  readonly fromBar: number;
  readonly toBar: number;
}

/**
 * The stretches without a click that begin up to a bar (1-based), in order.
 *
 * @example silentStretches({ sounding: 2, silent: 1, growBy: 1, most: 2 }, 10) // => [{ fromBar: 3, toBar: 3 }, { fromBar: 6, toBar: 7 }, { fromBar: 10, toBar: 11 }]
 */
export function silentStretches(
  { sounding, silent, growBy, most }: SilentBars,
  upToBar: number,
): BarStretch[] {
  const stretches: BarStretch[] = [];
  let bars = silent;
  for (let fromBar = sounding + 1; fromBar <= upToBar;) {
    const toBar = fromBar + Math.min(bars, Math.max(silent, most)) - 1;
    stretches.push({ fromBar, toBar });
    fromBar = toBar + sounding + 1;
    bars += growBy;
  }
  return stretches;
}

/**
 * Whether a bar (1-based; 0 and below come before the first) is without a click.
 *
 * @example isSilentBar({ sounding: 4, silent: 2, growBy: 0, most: 2 }, 6) // => true
 */
export function isSilentBar(rule: SilentBars, bar: number): boolean {
  const last = silentStretches(rule, bar).at(-1);
  return last !== undefined && bar <= last.toBar;
}
