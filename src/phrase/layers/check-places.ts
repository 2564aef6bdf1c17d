import { parseBeats } from '../../time/beats';
import type { Grid } from '../model/grid';
import { changePlace, MOST_ERRORS, phraseError, type PhraseError } from '../model/phrase-error';
import { tempoRange } from '../model/tempo-range';
import type { Change, Phrase, Selector } from '../model/phrase';

/** Calls `visit` on a selector and on every selector inside it, with its place in the file. */
export function visitSelectors(
  where: Selector,
  place: string,
  visit: (where: Selector, place: string) => void,
): void {
  visit(where, place);
  if (where.not) visitSelectors(where.not, `${place}.not`, visit);
  where.any?.forEach((member, i) => visitSelectors(member, `${place}.any[${i}]`, visit));
}

/** What is wrong with the places that a phrase's last layer names, and the longest pickup so far. */
interface LayerPlaces {
  readonly errors: readonly PhraseError[];
  /** Partials. */
  readonly longestPickup: number;
}

/** Positions, beats, rounds, pickups, displacement, swing; `grids` are those that each change meets, and the last. */
export function layerPlaces(
  phrase: Phrase,
  grids: readonly Grid[],
  pickupBelow: number,
): LayerPlaces {
  const errors: PhraseError[] = [];
  let longestPickup = pickupBelow;
  const layerIndex = phrase.layers.length - 1;
  if (layerIndex === 0) errors.push(...headPlaces(phrase));
  phrase.layers[layerIndex]!.changes.forEach((change, changeIndex) => {
    const place = changePlace(layerIndex, changeIndex);
    const grid = grids[changeIndex + 1]!;
    if (errors.length >= MOST_ERRORS) return;
    if ('where' in change)
      visitSelectors(change.where, `${place}.where`, (where, at) => {
        errors.push(...selectorPlaces(where, at, phrase));
      });
    errors.push(...ownPlaces(change, place, phrase, grid));
    if (change.kind === 'pickup')
      longestPickup = Math.max(longestPickup, ...change.pickup.map((s) => s.partialsBefore));
    if (
      (change.kind === 'pickup' || change.kind === 'subdivision') &&
      longestPickup > grid.barPartials
    )
      errors.push(
        phraseError('PICKUP_TOO_LONG', place, { found: longestPickup, expected: grid.barPartials }),
      );
  });
  return { errors, longestPickup };
}

/** What is wrong ahead of the layers. */
function headPlaces({ meter, meterText, tempoBpm, subdivision, swing }: Phrase): PhraseError[] {
  const { least, most } = tempoRange(meter, subdivision);
  const expected = `from ${least} to ${most}, which is as quick as ${meterText} in ${subdivision} partials a beat may be`;
  return [
    ...(tempoBpm > most
      ? [phraseError('OUT_OF_RANGE', 'tempoBpm', { found: tempoBpm, expected })]
      : []),
    ...(swing && meter.unit !== 4
      ? [phraseError('SWING_METER', 'swing', { found: meterText })]
      : []),
  ];
}

function selectorPlaces(where: Selector, place: string, phrase: Phrase): PhraseError[] {
  const errors: PhraseError[] = [];
  where.positions?.forEach((position, i) => {
    if (position > phrase.cycle)
      errors.push(beyondCycle(position, `${place}.positions[${i}]`, phrase.cycle));
  });
  const barEnd = phrase.meter.beatsPerBar + 1;
  where.beats?.forEach((found, i) => {
    const at = `${place}.beats[${i}]`;
    const exact = parseBeats(found);
    if (!exact || exact.compare(1) < 0)
      errors.push(phraseError('BEAT_TEXT', at, { found: `"${found}"` }));
    else if (exact.compare(barEnd) >= 0)
      errors.push(
        phraseError('BEAT_BEYOND_BAR', at, { found, expected: barEnd, meter: phrase.meterText }),
      );
  });
  where.every?.at.forEach((found, i) => {
    const { partials } = where.every!;
    if (found > partials)
      errors.push(
        phraseError('OUT_OF_RANGE', `${place}.every.at[${i}]`, {
          found,
          expected: `up to ${partials}, after which the places come round`,
        }),
      );
  });
  return errors;
}

const beyondCycle = (found: number, place: string, expected: number): PhraseError =>
  phraseError('POSITION_BEYOND_CYCLE', place, { found, expected });

function ownPlaces(change: Change, place: string, phrase: Phrase, grid: Grid): PhraseError[] {
  switch (change.kind) {
    case 'set':
      return change.where.grace && change.set.grace !== undefined
        ? [phraseError('GRACE_OF_GRACE', `${place}.set.grace`)]
        : [];
    case 'accentEvery':
      return change.from > change.accentEvery
        ? [
            phraseError('OUT_OF_RANGE', `${place}.from`, {
              found: change.from,
              expected: `from 1 to ${change.accentEvery}, the distance of the accents`,
            }),
          ]
        : [];
    case 'add':
      return change.add.flatMap(({ position }, i) =>
        position > phrase.cycle
          ? [beyondCycle(position, `${place}.add[${i}].position`, phrase.cycle)]
          : [],
      );
    case 'displace':
      return Math.abs(grid.displace) >= phrase.cycle
        ? [
            phraseError('DISPLACED_TOO_FAR', `${place}.displace`, {
              found: grid.displace,
              expected: phrase.cycle,
            }),
          ]
        : [];
    case 'swing':
      return phrase.meter.unit === 4
        ? []
        : [phraseError('SWING_METER', `${place}.swing`, { found: phrase.meterText })];
    default:
      return [];
  }
}
