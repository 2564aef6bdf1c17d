import { comparisons, type Comparison, type JudgedTake } from '../../coach/comparison/comparisons';
import type { EarlierTake } from '../../coach/comparison/earlier-take';
import { boundariesOf } from '../../kit/boundaries-of';
import { openTake } from '../../live/open-take';
import type { Take } from '../../take/take';
import type { Result } from '../../time/result';

/** Reads a take of the log. */
type ReadTake = (id: string) => Promise<Result<Take, unknown>>;

/** What has changed in a take of the log since an earlier one; nothing where one of them cannot be read or judged. */
export async function comparisonsOfTake(
  id: string,
  { id: earlier, between }: EarlierTake,
  read: ReadTake,
): Promise<readonly Comparison[]> {
  const [before, after] = await Promise.all([judgedTake(earlier, read), judgedTake(id, read)]);
  return before && after ? comparisons(before, after, between) : [];
}

async function judgedTake(id: string, read: ReadTake): Promise<JudgedTake | undefined> {
  const take = await read(id);
  const opened = take.ok ? openTake(take.value) : undefined;
  return opened && take.ok
    ? { ...opened, boundaries: (pad) => boundariesOf(take.value.kit, pad) }
    : undefined;
}
