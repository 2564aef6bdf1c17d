import {
  learnCrosstalk,
  withCrosstalk,
  withoutCrosstalk,
} from '../../../../kit/faults/learn-crosstalk';
import type { Kit } from '../../../../kit/kit';
import type { CrosstalkLearning } from './crosstalk-learning';

/** What the strikes tell of the kit. */
export interface CrosstalkReport {
  /** Each pad that was struck hard often enough, with what answered it, one sentence each. */
  readonly pads: readonly { readonly struck: string; readonly sentences: readonly string[] }[];
  /** Pads that were struck, but not hard often enough. */
  readonly notLearned: readonly string[];
  /** The kit as it would be kept; undefined when it knows no more than before. */
  readonly kit: Kit | undefined;
}

export function crosstalkReport({ kit, pads, strokes }: CrosstalkLearning): CrosstalkReport {
  const struck = pads.flatMap((pad, i) => {
    const came = strokes[i]!;
    return came.length > 0 ? [{ note: pad.note, group: pad.group, strokes: came }] : [];
  });
  const { answers, masks, sentences, notLearned } = learnCrosstalk(kit, struck);
  const learned = struck.map(({ group }) => group).filter((group) => !notLearned.includes(group));
  const knew = kit.crosstalk?.some((mask) => learned.includes(mask.struck)) ?? false;
  return {
    pads: learned.map((group) => ({
      struck: group,
      sentences: sentences.filter((_, i) => answers[i]!.struck === group),
    })),
    notLearned,
    kit:
      masks.length > 0 || knew ? withCrosstalk(withoutCrosstalk(kit, learned), masks) : undefined,
  };
}
