import { countOf } from '../../../words/words';

/** Notes that a selector selects, by key. */
export interface SelectedNotes {
  /** Of the first cycle. */
  readonly cycle: ReadonlySet<string>;
  readonly pickup: ReadonlySet<string>;
}

/**
 * How many notes are selected, and where; `cycle` is what the cycle is called.
 *
 * @example selectedWords({ cycle: new Set(['2/L', '4/L']), pickup: new Set(['-1/L']) }, 'the cycle') // => '2 notes of the cycle and 1 of the pickup'
 */
export function selectedWords({ cycle, pickup }: SelectedNotes, called: string): string {
  const ofCycle = cycle.size === 0 ? 'no note' : countOf(cycle.size, 'note');
  const ofPickup = pickup.size === 0 ? '' : ` and ${pickup.size} of the pickup`;
  return `${ofCycle} of ${called}${ofPickup}`;
}
