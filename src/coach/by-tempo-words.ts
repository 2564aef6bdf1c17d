import { groupBy } from '../time/group-by';

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
  const tempi = [...groupBy(decided, ({ bpm }) => bpmText(bpm)).values()]
    .map(([last]) => last!)
    .sort((a, b) => a.bpm - b.bpm);
  const isFine = ({ code }: TempoLook) => FINE.has(code!);
  const apart = tempi.filter((look) => !isFine(look));
  const fine = tempi.slice(0, tempi.length - apart.length);
  if (tempi.length < 2 || fine.length === 0 || !fine.every(isFine)) return undefined;
  const isEven = fine.every(({ code }) => code === 'even');
  const [first, last] = [fine[0]!, fine.at(-1)!];
  const [next] = apart;
  if (!next) return isEven ? `Even from ${bpmText(first.bpm)} to ${bpmText(last.bpm)}.` : undefined;
  const upTo = `${isEven ? 'Even' : 'Nothing stands out'} to ${bpmText(last.bpm)}`;
  return `${upTo}; at ${bpmText(next.bpm)}, ${next.finding.charAt(0).toLowerCase()}${next.finding.slice(1)}`;
}

const bpmText = (bpm: number): string => String(Number(bpm.toFixed(1)));
