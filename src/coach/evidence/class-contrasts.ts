import { median } from 'simple-statistics';
import { contrastOf, type Contrast } from './contrast';
import type { Evidence } from './evidence';
import { FEWEST_UNITS } from './units';

/** How many units' worth of evidence it is how the strokes of the whole take go together. Chosen by counting claims, not measured. */
const PRIOR_DEGREES = 24;

/**
 * Every class of causes against the rest, in time. Few units tell little of an error, so each leans on what is expected of it from
 * how all strokes go together: the moderated t of Smyth 2004 (Stat. Appl. Genet. Mol. Biol. 3:3), with a prior of stated weight. Undefined
 * for a class that too few units show.
 *
 * @param values of each note in ms, NaN where none is told
 */
export function classContrasts(
  { classes, units, expected }: Pick<Evidence, 'classes' | 'units' | 'expected'>,
  values: Float64Array,
): (Contrast | undefined)[] {
  const contrasts = classes.map(({ group, rest }) => {
    const contrast = contrastOf(values, units, group, rest);
    return contrast && contrast.df + 1 >= FEWEST_UNITS ? contrast : undefined;
  });
  const ratios = contrasts.flatMap((one, i) => (one ? [one.error ** 2 / expected[i]!] : []));
  const usual = ratios.length > 0 ? median(ratios) : 0;
  return contrasts.map((one, i) => one && moderated(one, usual * expected[i]!));
}

function moderated(contrast: Contrast, prior: number): Contrast {
  const { error, df } = contrast;
  const variance = (PRIOR_DEGREES * prior + df * error ** 2) / (PRIOR_DEGREES + df);
  return { ...contrast, error: Math.sqrt(variance), df: df + PRIOR_DEGREES };
}
