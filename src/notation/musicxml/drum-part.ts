import { remarkOnAll, type FileRemark } from '../../phrase/decompose/file-remark';
import { childOf, childrenOf, textOf, type XmlElement } from './xml-tree';

/** The part that is read, and what is not. */
export interface DrumPart {
  readonly part: XmlElement;
  readonly scorePart: XmlElement | undefined;
  readonly unread: readonly FileRemark[];
}

/** The part of a partwise score with most notes for drums: without pitch, or under a clef for drums. */
export function drumPart(root: XmlElement): DrumPart | undefined {
  const parts = childrenOf(root, 'part').map((part) => ({ part, ...drumsIn(part) }));
  const drums = parts.filter(({ hasDrums }) => hasDrums).sort((a, b) => b.notes - a.notes);
  const [first] = drums;
  if (!first) return undefined;
  const { part } = first;
  const scorePart = childrenOf(childOf(root, 'part-list'), 'score-part').find(
    ({ attributes }) => attributes['id'] === part.attributes['id'],
  );
  const others = drums.length - 1;
  const sentence = `Of ${drums.length} parts for drums the one with most notes is read.`;
  return { part, scorePart, unread: others > 0 ? [remarkOnAll(sentence)] : [] };
}

function drumsIn(part: XmlElement): { readonly hasDrums: boolean; readonly notes: number } {
  let isDrumClef = false;
  let hasDrums = false;
  let notes = 0;
  for (const measure of childrenOf(part, 'measure'))
    for (const item of measure.children) {
      const sign = textOf(childOf(item, 'clef'), 'sign');
      if (item.name === 'attributes' && sign !== undefined) isDrumClef = sign === 'percussion';
      hasDrums ||= isDrumClef;
      if (item.name === 'note' && !childOf(item, 'rest'))
        if (childOf(item, 'unpitched') || isDrumClef) notes++;
    }
  return { hasDrums: hasDrums || notes > 0, notes };
}
