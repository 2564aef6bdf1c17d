import type { StaffEvent } from '../score/score';

/** @example meiValue({ flags: 1, dotted: true }) // => { dur: 8, dots: 1 } */
export const meiValue = ({
  flags,
  dotted,
}: Pick<StaffEvent, 'flags' | 'dotted'>): { dur: number; dots: number | undefined } => ({
  dur: 2 ** (flags + 2),
  dots: dotted ? 1 : undefined,
});
