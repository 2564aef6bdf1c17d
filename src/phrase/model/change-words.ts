import { limbName } from './limb';
import type { AddedStroke, Change, PickupStroke, Setting, Selector } from './phrase';
import { countOf, plural } from '../../words/words';

/** What a change does, as a short sentence without its full stop. */
export function changeWords(change: Change): string {
  switch (change.kind) {
    case 'set':
      return `${selectorWords(change.where)}: ${settingWords(change.set)}`;
    case 'pickup':
      return `pickup before the first downbeat: ${change.pickup.map(pickupWords).join(', ')}`;
    case 'accentEvery':
      return `accent every ${change.accentEvery} partials from partial ${change.from} on${isAll(change.where) ? '' : `, ${selectorWords(change.where)} only`}`;
    case 'displace':
      return `the cycle starts ${countOf(Math.abs(change.displace), 'partial')} ${change.displace < 0 ? 'earlier' : 'later'}`;
    case 'subdivision':
      return `${change.subdivision} partials to the beat`;
    case 'swing':
      return `off-beat eighths swung ${change.swing}`;
    case 'add':
      return addedWords(change.add).join('; ');
  }
}

/** Which notes, in words. */
export function selectorWords(where: Selector): string {
  if (isAll(where)) return 'every note';
  const parts: string[] = [];
  if (where.grace) parts.push('grace notes');
  if (where.limb) parts.push(limbName(where.limb));
  if (where.voice) parts.push(where.voice);
  if (where.level) parts.push(`${where.level}s`);
  if (where.nth) parts.push(`${plural(where.nth.length, 'stroke')} ${where.nth.join(', ')}`);
  if (where.positions)
    parts.push(`${plural(where.positions.length, 'position')} ${where.positions.join(', ')}`);
  if (where.beats) parts.push(`${plural(where.beats.length, 'beat')} ${where.beats.join(', ')}`);
  if (where.every)
    parts.push(
      `${plural(where.every.at.length, 'partial')} ${where.every.at.join(', ')} of every ${where.every.partials}`,
    );
  if (where.any) parts.push(where.any.map(selectorWords).join(' or '));
  if (where.not) parts.push(`not ${selectorWords(where.not)}`);
  return parts.join(', ');
}

function settingWords({ voice, level, limb, silent, grace }: Setting): string {
  const parts: string[] = [];
  if (voice) parts.push(`on ${voice}`);
  if (level) parts.push(`as ${level}s`);
  if (limb) parts.push(`with the ${limbName(limb)}`);
  if (silent !== undefined) parts.push(silent ? 'silent' : 'sounds again');
  if (grace) parts.push(grace === 'none' ? 'without grace notes' : `as ${grace}s`);
  return parts.join(', ');
}

/** Strokes of one limb on one voice are told together. */
function addedWords(added: readonly AddedStroke[]): string[] {
  const strokes = new Map<string, number[]>();
  for (const { position, limb, voice } of added) {
    const stroke = `add ${limb}${voice ? ` on ${voice}` : ''}`;
    strokes.set(stroke, [...(strokes.get(stroke) ?? []), position]);
  }
  return [...strokes].map(
    ([stroke, positions]) =>
      `${stroke} at ${plural(positions.length, 'position')} ${positions.join(', ')}`,
  );
}

const pickupWords = ({ partialsBefore, limb, voice, level }: PickupStroke): string =>
  `${limb}${voice ? ` on ${voice}` : ''}${level ? ` (${level})` : ''} ${countOf(partialsBefore, 'partial')} ahead`;
const isAll = (where: Selector) => Object.keys(where).length === 0;
