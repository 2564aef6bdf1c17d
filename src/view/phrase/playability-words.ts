import { isHand, limbName } from '../../phrase/model/limb';
import type { Playability, PlayabilityProblem } from '../../phrase/playability/playability';
import type { LimbRate } from '../../phrase/playability/limb-rates';
import { FASTEST_PER_SECOND, SUSTAINED_PER_SECOND } from '../../phrase/playability/rates';
import { bpmText } from '../figures/format';
import { list, plural } from '../../words/words';

/** The lower end of what one hand keeps up, strokes a second; see rates.ts for the source. */
export const HAND_RATE_FROM = 5;

/** Places named one by one at most; more are counted. Chosen, not measured. */
const MOST_NAMED = 12;

type Named = PlayabilityProblem['notes'][number];

/** Notes in question by their place in the cycle, limb by limb and voice by voice. */
export function notesWords(notes: readonly Pick<Named, 'position' | 'limb' | 'voice'>[]): string {
  const groups = new Map<string, Set<number>>();
  for (const { position, limb, voice } of notes) {
    const name = `${limbName(limb)} on ${voice}`;
    groups.set(name, (groups.get(name) ?? new Set()).add(position));
  }
  return [...groups].map(([name, places]) => `${name}: ${placesWords([...places])}`).join('; ');
}

function placesWords(places: readonly number[]): string {
  const sorted = [...places].sort((a, b) => a - b);
  const pickup = sorted.filter((place) => place < 0).map((place) => -place);
  const inCycle = sorted.filter((place) => place > 0);
  return [
    ...(pickup.length > 0 ? [`pickup, ${list(pickup.map(String))} ahead`] : []),
    ...(inCycle.length > 0 ? [`${plural(inCycle.length, 'position')} ${someOf(inCycle)}`] : []),
  ].join(', ');
}

const someOf = (places: readonly number[]): string =>
  places.length > MOST_NAMED
    ? `${places.slice(0, MOST_NAMED).join(', ')} and ${places.length - MOST_NAMED} more`
    : places.join(', ');

/** Up to which tempo a layer can be played, in one sentence. */
export function upToWords({ playableUpToBpm }: Playability, mostBpm: number): string {
  if (playableUpToBpm >= mostBpm) return `Nothing stands in the way up to ${mostBpm} bpm.`;
  if (playableUpToBpm === 0) return 'Part of it cannot be played at any tempo.';
  return `All of it can be played up to ${bpmText(Math.floor(playableUpToBpm))} bpm.`;
}

/**
 * A limb's rate against the published ones.
 *
 * @example rateWords({ limb: 'R', perSecond: 6 }) // => 'within the 5 to 7 that a hand keeps up'
 */
export function rateWords({ limb, perSecond }: LimbRate): string {
  const kept = `${HAND_RATE_FROM} to ${SUSTAINED_PER_SECOND} that a hand keeps up`;
  if (perSecond > FASTEST_PER_SECOND)
    return `beyond the ${FASTEST_PER_SECOND} of the fastest hand measured`;
  const side =
    perSecond > SUSTAINED_PER_SECOND ? 'beyond' : perSecond < HAND_RATE_FROM ? 'below' : 'within';
  return `${side} the ${kept}${isHand(limb) ? '' : '; none is known for feet'}`;
}
