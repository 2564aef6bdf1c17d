import { boundariesOf, comparisons, type Comparison, type JudgedTake } from '../index';
import type { AssessedFile } from './assess-input';
import { InputError } from './input-error';
import type { Recording } from './read-input';

/** A recording, and how it answers its phrase. */
export interface AssessedRecording {
  readonly recording: Recording;
  readonly assessed: AssessedFile;
}

/**
 * What has changed since an earlier take of what that take was told.
 *
 * @throws InputError when somebody else played it, as far as the takes say.
 */
export function assessSince(
  now: AssessedRecording,
  earlier: AssessedRecording,
  earlierName: string,
): readonly Comparison[] {
  const [player, before] = [now, earlier].map(({ recording }) =>
    'take' in recording ? recording.take.player : undefined,
  );
  if (player !== undefined && before !== undefined && player !== before)
    throw new InputError(
      `${earlierName}: player: expected ${player}, as in the take itself, and not ${before}.`,
    );
  return comparisons(judged(earlier), judged(now));
}

const judged = ({ assessed }: AssessedRecording): JudgedTake => ({
  plan: assessed.plan,
  judgement: assessed.judgement,
  boundaries: (pad) => boundariesOf(assessed.kit, pad),
  slips: assessed.slips,
});
