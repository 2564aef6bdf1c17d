import { remainder } from '../../time/whole';
import type { Across } from '../../notation/across-bar';
import { BAR_HEIGHT, WORDS_HEIGHT } from './bar-lines';

/** Where a mark over the picture of the bars stands, px. */
export interface MarkPlace {
  readonly left: number;
  readonly top: number;
}

/**
 * Where the partial stands that sounds so many beats after bar 1 beat 1, or before it in the bars of the pickup;
 * undefined ahead of those. After the realignment the picture is gone through again.
 */
export function markPlace(beat: number, across: Across, slot: number): MarkPlace | undefined {
  const partial = across.partialAt(beat);
  const row = Math.floor(partial / across.barPartials) + across.lead;
  if (row < 0) return undefined;
  return {
    left: remainder(partial, across.barPartials) * slot,
    top: row * BAR_HEIGHT + WORDS_HEIGHT,
  };
}

/** Moves a mark over the picture frame by frame, and the box to it, until the answer is called. */
export function followSound(
  mark: SVGElement,
  box: () => HTMLElement | undefined,
  place: () => MarkPlace | undefined,
): () => void {
  let frame = 0;
  const draw = () => {
    const at = place();
    mark.setAttribute('visibility', at ? 'visible' : 'hidden');
    if (at) {
      mark.setAttribute('transform', `translate(${at.left} ${at.top})`);
      bringIntoView(box(), at);
    }
    frame = requestAnimationFrame(draw);
  };
  draw();
  return () => cancelAnimationFrame(frame);
}

function bringIntoView(box: HTMLElement | undefined, { left, top }: MarkPlace): void {
  if (!box) return;
  const row = top - WORDS_HEIGHT;
  if (row < box.scrollTop || row + BAR_HEIGHT > box.scrollTop + box.clientHeight)
    box.scrollTop = row;
  if (left < box.scrollLeft || left + 48 > box.scrollLeft + box.clientWidth)
    box.scrollLeft = Math.max(0, left - 48);
}
