/**
 * A place of a phrase file in words: layers, changes and entries counted from 1, keys as they are written. The step
 * of a grouping is left to the message.
 *
 * @example placeWords('layers[1].changes[0].where.nth[2]') // => 'layer 2, change 1, "where", "nth", entry 3'
 */
export function placeWords(place: string): string {
  const parts = place.match(/[^.[\]]+(?:\[\d+\])?/g) ?? [];
  return parts.map(partWords).join(', ');
}

function partWords(part: string): string {
  const [, key, index] = /^(.*?)(?:\[(\d+)\])?$/.exec(part)!;
  if (index === undefined || key === 'grouping') return `"${key}"`;
  const number = Number(index) + 1;
  if (key === 'phrases') return `phrase ${number}`;
  if (key === 'layers') return `layer ${number}`;
  return key === 'changes' ? `change ${number}` : `"${key}", entry ${number}`;
}
