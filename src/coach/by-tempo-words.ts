import { groupBy } from '../time/group-by';
import { shortText } from '../words/words';

/** What stood out first of a layer at one tempo. */
export interface TempoLook {
  readonly bpm: number;
  /** Of the finding; undefined where it was not kept. */
  readonly code?: string | undefined;
  /** Its sentence. */
  readonly finding: string;
}

/** Of time; beside these whatever is found stands out. */
const FINE: ReadonlySet<string> = new Set(['even', 'nothing stands out']);

/**
 * Up to which tempo a layer is even, and what stands out at the next one; undefined where no two tempi tell, or they do not
 * part at one tempo. Of looks at the same tempo the last that was decided counts.
 *
 * @param looks at one target, the last one first
 * @example byTempoWords([{ bpm: 96, code: 'limb off', finding: 'Left hand 12 ms late, steadily.' }, { bpm: 92, code: 'even', finding: '' }]) // => 'Even to 92; at 96, left hand 12 ms late, steadily.'
 */
export function byTempoWords(looks: readonly TempoLook[]): string | undefined {
  const decided = looks.filter(({ code }) => code !== undefined && code !== 'undecided');
  const tempi = [...groupBy(decided, ({ bpm }) => shortText(bpm, 1)).values()]
    .map(([last]) => last!)
    .sort((a, b) => a.bpm - b.bpm);
  const isFine = ({ code }: TempoLook) => FINE.has(code!);
  const apart = tempi.filter((look) => !isFine(look));
  const fine = tempi.slice(0, tempi.length - apart.length);
  if (tempi.length < 2 || fine.length === 0 || !fine.every(isFine)) return undefined;
  const isEven = fine.every(({ code }) => code === 'even');
  const [first, last] = [fine[0]!, fine.at(-1)!];
  const [next] = apart;
  if (!next)
    return isEven
      ? `Even from ${shortText(first.bpm, 1)} to ${shortText(last.bpm, 1)}.`
      : undefined;
  const upTo = `${isEven ? 'Even' : 'Nothing stands out'} to ${shortText(last.bpm, 1)}`;
  return `${upTo}; at ${shortText(next.bpm, 1)}, ${next.finding.charAt(0).toLowerCase()}${next.finding.slice(1)}`;
}
