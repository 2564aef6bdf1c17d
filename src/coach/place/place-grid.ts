import { passageSpan, type Plan } from '../../match/plan';
import { enlarge } from '../../match/enlarge';
import { partialParts } from '../../phrase/layers/expand';

/** Ahead of what is asked for, partials: one is heard only when the next is known. */
const AHEAD = 2;

/**
 * The partials of a plan in time, passage by passage, as far as is asked for. Columns only: made at cycle rate, read at
 * every stroke.
 */
export class PlaceGrid {
  count = 0;
  timeUs = new Float64Array(1024);
  /** To the next partial. */
  lengthUs = new Float64Array(1024);
  /** 0-based passage of the plan. */
  passage = new Int32Array(1024);
  /** Partials from the start of the passage's first cycle; 0 or more but where that lies before bar 1. */
  partial = new Int32Array(1024);
  #plan: Plan | undefined;
  #untilUs = -Infinity;

  /** Lays out partials of a plan until they cover `untilUs`. Where the plan is another one than before, those from `keptUs` on are laid out anew. */
  extendTo(plan: Plan, untilUs: number, keptUs: number): void {
    if (this.#plan === plan && untilUs <= this.#untilUs) return;
    this.#untilUs = untilUs;
    if (this.#plan !== plan) {
      while (this.count > 0 && this.timeUs[this.count - 1]! >= keptUs) this.count--;
      this.#plan = plan;
    }
    const last = this.count - 1;
    let index = last < 0 ? 0 : this.passage[last]!;
    let from = last < 0 ? undefined : this.partial[last]! + 1;
    let ahead = 0;
    while (ahead < AHEAD && this.timeUs[last - ahead]! > untilUs) ahead++;
    for (; index < plan.passages.length; index++, from = undefined) {
      const span = passageSpan(plan, index);
      const { subdivision, startBeats } = span.shape;
      const { partsABeat, partsAt } = partialParts(plan.phrase, span.layer);
      const displace = Math.round(startBeats.valueOf() * subdivision);
      const partialUs = (1 / subdivision) * 60e6;
      const fromParts = span.from.valueOf() * partsABeat;
      const toParts = span.to ? span.to.mul(partsABeat).valueOf() : Infinity;
      for (let partial = from ?? Math.max(0, -displace); ahead < AHEAD; partial++) {
        const parts = partsAt(partial + displace) + fromParts;
        if (parts >= toParts) break;
        const timeUs = plan.tempo.usAtPart(parts, partsABeat);
        if (timeUs > untilUs) ahead++;
        this.#add(timeUs, index, partial);
        this.lengthUs[this.count - 1] = partialUs / plan.tempo.bpmAtPart(parts, partsABeat);
      }
      if (ahead >= AHEAD) return;
    }
  }

  #add(timeUs: number, passage: number, partial: number): void {
    const at = this.count++;
    if (at === this.timeUs.length) {
      this.timeUs = enlarge(this.timeUs, new Float64Array(2 * at));
      this.lengthUs = enlarge(this.lengthUs, new Float64Array(2 * at));
      this.passage = enlarge(this.passage, new Int32Array(2 * at));
      this.partial = enlarge(this.partial, new Int32Array(2 * at));
    }
    this.timeUs[at] = timeUs;
    this.passage[at] = passage;
    this.partial[at] = partial;
  }
}
