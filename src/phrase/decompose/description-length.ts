import type { Change, Phrase, Selector } from '../model/phrase';

/**
 * How much there is to say about a phrase, in words, so that two ways to write the same notes can be
 * compared. A word for each
 *
 * - stroke, grace note and rest of the grouping; the cycle, where it is not the grouping's length; the swing;
 * - layer after the first (its name);
 * - limb, voice, level and `grace` of a selector; list of positions, nth or beats, and each entry of it; `not` and `any`;
 * - `every`, its partials, its list and each entry of that;
 * - thing that a set gives;
 * - list of pickup or added strokes; two for each stroke (where, which limb), one for its voice and one for its level, where given;
 * - `accentEvery`, and its number, and its `from` unless 1; two for displace, subdivision and swing.
 *
 * Meter, tempo and first subdivision are the same however the notes are taken apart, and are not counted.
 *
 * @example descriptionLength(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }, { name: 'Low', changes: [{ where: { limb: 'R' }, set: { voice: 'floor tom' } }] }] }).value) // => 6
 */
export function descriptionLength(
  phrase: Pick<Phrase, 'grouping' | 'cycle' | 'layers'> & { readonly swing?: unknown },
): number {
  const steps = sum(phrase.grouping, (step) =>
    Math.max(
      1,
      sum(step, (stroke) => 1 + stroke.graces.length),
    ),
  );
  const cycle = phrase.cycle === phrase.grouping.length ? 0 : 1;
  const changes = sum(phrase.layers, (layer) => sum(layer.changes, changeLength));
  return steps + cycle + (phrase.swing ? 1 : 0) + phrase.layers.length - 1 + changes;
}

/** The words of one change. */
export function changeLength(change: Change): number {
  switch (change.kind) {
    case 'set':
      return selectorLength(change.where) + Object.keys(change.set).length;
    case 'accentEvery':
      return 2 + (change.from === 1 ? 0 : 1) + selectorLength(change.where);
    case 'pickup':
      return 1 + sum(change.pickup, strokeLength);
    case 'add':
      return 1 + sum(change.add, strokeLength);
    case 'displace':
    case 'subdivision':
    case 'swing':
      return 2;
  }
}

const strokeLength = (stroke: object): number => Object.keys(stroke).length;

function selectorLength({ positions, nth, beats, every, not, any, ...single }: Selector): number {
  return (
    Object.keys(single).length +
    sum([positions, nth, beats], (list) => (list ? 1 + list.length : 0)) +
    (every ? 3 + every.at.length : 0) +
    (not ? 1 + selectorLength(not) : 0) +
    (any ? 1 + sum(any, selectorLength) : 0)
  );
}

const sum = <T>(items: readonly T[], length: (item: T) => number): number =>
  items.reduce((total, item) => total + length(item), 0);
