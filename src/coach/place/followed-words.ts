import { figuresOf } from '../../score/figures';
import type { Judgement } from '../../score/judge';

/**
 * What a take comes to against the click and against the place that was played; none where the place was kept.
 *
 * @param percent writes a share from 0 to 1
 * @example followedWords({ notes: [], extras: [] }, undefined, String) // => []
 */
export function followedWords(
  judgement: Judgement,
  followed: Judgement | undefined,
  percent: (share: number | undefined) => string,
): string[] {
  if (!followed) return [];
  const share = ({ notes }: Judgement) => percent(figuresOf(notes).asWritten);
  return [
    `Against the click ${share(judgement)} as written, against the place that was played ${share(followed)}.`,
  ];
}
