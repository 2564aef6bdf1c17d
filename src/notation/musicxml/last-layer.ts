import { remarkOnAll, type FileRemark } from '../../phrase/decompose/file-remark';
import type { ReadBar } from './read-bars';

/**
 * The bars of the last section, with the tempo and the swing that hold there; where layers follow each other, the last is the whole
 * phrase.
 */
export function lastLayer(bars: readonly ReadBar[]): {
  readonly bars: readonly ReadBar[];
  readonly unread: readonly FileRemark[];
} {
  const sections = bars.filter(({ section }) => section !== undefined);
  const first = sections.at(-1);
  if (!first || sections.length === 1) return { bars, unread: [] };
  const from = bars.indexOf(first);
  const before = bars.slice(0, from);
  const tempo = before.flatMap(({ tempos }) => tempos).at(-1);
  const swing = first.swing ?? before.findLast((bar) => bar.swing !== undefined)?.swing;
  const tempos = first.tempos.length === 0 && tempo !== undefined ? [tempo] : first.tempos;
  const name = first.section!.slice(0, 40);
  const remark = remarkOnAll(`Of ${sections.length} layers the last is read, "${name}".`);
  return {
    bars: [{ ...first, tempos, swing }, ...bars.slice(from + 1)],
    unread: [remark],
  };
}
