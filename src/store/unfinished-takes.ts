import type { Take } from '../take/take';
import type { PracticeDatabase } from './database';
import { isOnHold } from './hold';
import { unpackTake } from './packed-take';
import { forgetParts, nameOfTake } from './take-journal';
import type { JournalPart } from './tables';

/** What stands in the journal of a take that no tab plays any more. */
export interface UnfinishedTake {
  readonly id: string;
  readonly take: Take;
  /** Where it is not 0, what was before it has been found and forgotten. */
  readonly firstPart: number;
  /** It is safe elsewhere: forgets what was found of it. */
  readonly forget: () => Promise<void>;
}

/** Takes that no tab is playing any more, oldest first, as far as they were written down. */
export async function unfinishedTakes(
  database: PracticeDatabase,
): Promise<readonly UnfinishedTake[]> {
  const stored = await database.all('journal');
  if (!stored.ok) return [];
  const ids = [...new Set(stored.value.map(({ takeId }) => takeId))];
  // At once: where there are no locks, the answer that nobody holds one takes its time.
  const areOnHold = await Promise.all(ids.map((id) => isOnHold(nameOfTake(id))));
  const found = ids.flatMap((id, i): UnfinishedTake[] => {
    if (areOnHold[i]) return [];
    // In the order of their numbers, as the store has them.
    const parts = stored.value.filter(({ takeId }) => takeId === id);
    const take = joined(parts);
    if (!take) return [];
    const [{ part: firstPart }, { part: lastPart }] = [parts[0]!, parts.at(-1)!];
    return [{ id, take, firstPart, forget: () => forgetParts(database, id, lastPart) }];
  });
  return found.sort((a, b) => (a.take.startedAt < b.take.startedAt ? -1 : 1));
}

/** The last part tells the plan; the messages of all of them follow one another. */
function joined(parts: readonly JournalPart[]): Take | undefined {
  const takes = parts.map(({ packed }) => unpackTake(packed));
  const last = takes.at(-1);
  if (!last) return undefined;
  return { ...last, messages: takes.flatMap((take) => take?.messages ?? []) };
}
