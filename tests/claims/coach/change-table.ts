import { changeCount, PRACTISED_FAULTS, type ChangeCount, type Next } from './change-claims';
import type { Scatter } from './player';
import { NOISES } from './scatter';

type Tell = (line?: string) => void;

/** Of every fault, at every scatter. */
const PAIRS = 100;
const SD_MS = [8, 12];
const NEXT: readonly Next[] = ['unchanged', 'halved'];
const SCATTERS: readonly Scatter[] = SD_MS.flatMap((sdMs) =>
  NOISES.map((noise) => ({ noise, sdMs })),
);

/** What is told of what has changed since an exercise, of players of whom nothing has, and of those whose fault is halved. */
export function changeTable(share: number, firstSeed: number, tell: Tell): void {
  const pairs = Math.ceil(PAIRS * share);
  let seed = firstSeed;
  tell(
    `what changed since: ${pairs} pairs of takes for each of ${PRACTISED_FAULTS.length} faults, seeds from ${firstSeed} on`,
  );
  const byFault = new Map<string, ChangeCount>();
  for (const scatter of SCATTERS)
    for (const next of NEXT) {
      const counts = PRACTISED_FAULTS.map(({ name, variants }) => {
        const count = changeCount(variants, next, scatter, pairs, () => seed++);
        const key = `${name}: ${next}`;
        byFault.set(key, sumOf([byFault.get(key) ?? NONE, count]));
        return count;
      });
      tell(row(`${scatter.sdMs} ms ${scatter.noise}: ${next}`, next, sumOf(counts)));
    }
  tell();
  for (const { name } of PRACTISED_FAULTS)
    for (const next of NEXT) {
      const key = `${name}: ${next}`;
      tell(row(key, next, byFault.get(key)!));
    }
  tell();
}

const NONE: ChangeCount = {
  pairs: 0,
  other: 0,
  same: 0,
  open: 0,
  more: 0,
  enough: 0,
  otherOfEnough: 0,
};

export const sumOf = (counts: readonly ChangeCount[]): ChangeCount =>
  counts.reduce((sum, one) => ({
    pairs: sum.pairs + one.pairs,
    other: sum.other + one.other,
    same: sum.same + one.same,
    open: sum.open + one.open,
    more: sum.more + one.more,
    enough: sum.enough + one.enough,
    otherOfEnough: sum.otherOfEnough + one.otherOfEnough,
  }));

function row(name: string, next: Next, count: ChangeCount): string {
  const { pairs, other, same, open, more, enough, otherOfEnough } = count;
  const percent = (times: number, of: number) =>
    `${((100 * times) / Math.max(1, of)).toFixed(1).padStart(5)} %`;
  const wrong =
    next === 'unchanged'
      ? `wrongly told a change ${percent(other, pairs)}`
      : `told the wrong way ${more}, wrongly as the same ${percent(same, pairs)}; with evidence enough told ${percent(otherOfEnough, enough)} of ${enough}`;
  return `  ${name.padEnd(56)} of ${String(pairs).padStart(4)}: a change ${percent(other, pairs)}, the same ${percent(same, pairs)}, open ${percent(open, pairs)}; ${wrong}`;
}
