/**
 * Tempi from text such as "80, 96 88"; undefined where it is something else, or out of range.
 *
 * @param most how many there may be
 * @example parseTempi('80, 96 88', { least: 30, most: 300 }, 100) // => [80, 96, 88]
 */
export function parseTempi(
  text: string,
  { least, most: quickest }: { readonly least: number; readonly most: number },
  most: number,
): number[] | undefined {
  const words = text.split(/[,;\s]+/).filter((word) => word !== '');
  const tempi = words.map(Number);
  const fits = (bpm: number) => Number.isInteger(bpm) && bpm >= least && bpm <= quickest;
  return tempi.length > 0 && tempi.length <= most && tempi.every(fits) ? tempi : undefined;
}

/** @example tempoListText([80, 96, 88]) // => '80, 96, 88' */
export const tempoListText = (tempi: readonly number[]): string => tempi.join(', ');
