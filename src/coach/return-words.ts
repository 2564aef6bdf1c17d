import { countOf } from '../words/words';
import { meanReturn, type ClickReturn } from './click-returns';

/** Standard deviations of chance that a return has to leave before it says anything. */
export const WITHIN_CHANCE = 2;
/** Returns that are averaged before anything is claimed. Chosen, not measured. */
export const FEWEST_RETURNS = 6;

/**
 * One return of the click in a sentence, with how far chance alone goes: twice its standard deviation.
 *
 * @example returnWords({ fromBar: 5, toBar: 6, beats: 8, errorMs: -24, chanceMs: 28, notes: [] }) // => 'Click back at bar 7: 24 ms early; chance alone reaches 56.'
 */
export function returnWords({ toBar, errorMs, chanceMs }: ClickReturn): string {
  const start = `Click back at bar ${toBar + 1}:`;
  if (errorMs === undefined) return `${start} too far off, or too little played, to tell.`;
  const chance =
    chanceMs === undefined ? 'not enough strokes to tell chance' : chanceWords(chanceMs);
  return `${start} ${errorWords(errorMs)}; ${chance}.`;
}

/**
 * All of them on average; until there are FEWEST_RETURNS how many there are.
 *
 * @example meanReturnWords([]) // => ''
 */
export function meanReturnWords(returns: readonly ClickReturn[]): string {
  const told = meanReturn(returns);
  if (!told) return '';
  const { count, errorMs, chanceMs } = told;
  if (count < FEWEST_RETURNS) return `${count} of ${countOf(FEWEST_RETURNS, 'return')} for a mean.`;
  return `Over ${countOf(count, 'return')}: ${errorWords(errorMs)} on average; ${chanceWords(chanceMs)}.`;
}

const chanceWords = (chanceMs: number): string =>
  `chance alone reaches ${Math.max(1, Math.round(WITHIN_CHANCE * chanceMs))}`;

function errorWords(errorMs: number): string {
  const ms = Math.round(Math.abs(errorMs));
  return ms === 0 ? 'in time' : `${ms} ms ${errorMs < 0 ? 'early' : 'late'}`;
}
