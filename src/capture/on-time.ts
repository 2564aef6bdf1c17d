import { capture } from './capture';
import { lateTogether, medianLate } from './late-together';
import type { Played } from './played';

/** What was played, as if the rig were not late. */
export interface OnTime {
  readonly strokes: Played['strokes'];
  /** What was taken off, for a sentence; undefined where nothing was. */
  readonly late: { readonly words: string; readonly confidence: number } | undefined;
}

/** Strokes so far behind a partial, as a share of it, may be ahead of the next; and no rig is early. Chosen. */
const DOUBTFUL_FROM = 0.4;
const DOUBTFUL = 0.5;
/** So many strokes tell what the rig is late, which does not change. Chosen: a long capture is heard only once in full. */
const ENOUGH = 300;

/**
 * Takes off what the rig of somebody who played to the click is late: capture itself takes off no more than a good
 * player is late.
 */
export function onTime({
  strokes,
  clickBpm,
  meter,
  fileName,
}: Pick<Played, 'strokes' | 'clickBpm' | 'meter' | 'fileName'>): OnTime {
  if (clickBpm === undefined || fileName !== undefined) return { strokes, late: undefined };
  const heard = capture(strokes.slice(0, ENOUGH), { meter, clickBpm });
  const found = heard.ok ? lateTogether(heard.value.pattern, clickBpm) : undefined;
  if (!found) return { strokes, late: undefined };
  const beatUs = 60e6 / clickBpm;
  const beats = medianLate(
    strokes.map(({ timeUs }) => timeUs / beatUs),
    found,
  );
  const lateUs = Math.round(beats * beatUs);
  const side = beats < 0 ? 'early' : 'late';
  const isDoubtful = beats < 0 || beats * found.subdivision > DOUBTFUL_FROM;
  return {
    strokes: strokes.map((stroke) => ({ ...stroke, timeUs: stroke.timeUs - lateUs })),
    late: {
      words: `every stroke came about ${Math.abs(Math.round(lateUs / 1000))} ms ${side}, which is taken for the rig’s delay`,
      confidence: isDoubtful ? DOUBTFUL : 1,
    },
  };
}
