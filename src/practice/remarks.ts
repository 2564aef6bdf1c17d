import { RemarkLine, type Remark } from '../coach/remark-line';
import type { LiveStats } from '../live/live-stats';
import type { Choices } from './choices';
import type { PassedTarget } from './passes.svelte';

const BARS: Readonly<Record<Choices['remarks'], number>> = {
  'every 8 bars': 8,
  'every 16 bars': 16,
  'after the take': Infinity,
};

const NOTHING: Remark = { code: 'undecided', finding: '', advice: '' };

/** What is said beside the figures while a take goes on, as often as the player has chosen. */
export class Remarks {
  readonly #line = new RemarkLine();

  begin(): void {
    this.#line.begin();
  }

  /** The figures with the line that is said, which stays longer than they do; empty where it is to wait. */
  beside(
    stats: LiveStats,
    bar: number,
    { remarks }: Choices,
    passed: readonly PassedTarget[],
  ): LiveStats {
    // A place that is lost is told beside, and sooner.
    const found = stats.code === 'lost place' && stats.isLost ? NOTHING : stats;
    const passes = passed.filter(({ layer }) => layer === stats.layer).length;
    const said = this.#line.next(found, bar, BARS[remarks], passes);
    return { ...stats, finding: said?.finding ?? '', advice: said?.advice ?? '' };
  }
}
