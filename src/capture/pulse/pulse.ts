import { min } from 'simple-statistics';
import { gcd } from '../../time/whole';
import { EXTRA } from '../cycle-length';
import { followPulse, type Followed } from './follow-pulse';
import { mayBeGrace } from '../grace-marks';
import { hearOn } from '../hear-on';
import type { PlayedStroke } from '../played-stroke';
import { LONGEST_US, pulseCandidates } from './pulse-candidates';
import type { BeatGrid } from '../subdivision';
import { timingCost } from './timing-cost';

/** An even pulse that the strokes keep to, slow drift allowed: the partial, as long as no note needs a shorter one. */
export interface Pulse extends Followed {
  /** Pulses after which the strokes repeat; undefined where nothing was played twice. */
  readonly cyclePulses: number | undefined;
}

export interface PulseFit extends Pulse {
  /** How clearly it beats the next pulse, 0 to 1. */
  readonly confidence: number;
}

const PULSE: BeatGrid = { subdivision: 1, swing: undefined, places: [0], rareness: 0 };
/** What cycles cost is told for partials this long; on shorter ones there are more places to say. Chosen: a sixteenth at 150. */
const USUAL_MS = 100;
const LEAST_STROKES = 8;
/** Periods that differ by less are one, and nats by which it should be ahead of another. Chosen, not measured. */
const SAME = 0.01;
/** A pulse that was followed to another period than this near is lost. Chosen: what followPulse lets it creep, and a little. */
const LOST = 0.08;
const LEAD = 10;
/** Strokes that the pulses are compared on at most. Chosen for speed. */
const MOST_COMPARED = 400;

/**
 * The even pulse on which the strokes have the shortest description: what repeats, at which of its places, and
 * how far from them; then without the places on which no note ever is. Undefined with fewer than eight strokes.
 */
export function findPulse(strokes: readonly PlayedStroke[]): PulseFit | undefined {
  if (strokes.length < LEAST_STROKES) return undefined;
  const compared = strokes.slice(0, MOST_COMPARED);
  const graces = mayBeGrace(compared);
  const heard = pulseCandidates(
    compared.filter((_, i) => graces[i] === 0).map(({ timeUs }) => timeUs),
  )
    .flatMap((periodUs) => {
      const followed = followedBy(compared, periodUs);
      return isNear(followed.periodUs, periodUs, LOST) ? [heardOnPulse(compared, followed)] : [];
    })
    .sort((a, b) => a.cost - b.cost);
  const best = heard[0];
  if (!best) return undefined;
  const rival = heard.find(({ periodUs }) => !isNear(periodUs, best.periodUs, SAME));
  const confidence = 1 - Math.exp((best.cost - (rival?.cost ?? Infinity)) / LEAD);
  if (compared.length === strokes.length) return { ...best, confidence };
  return { ...heardOnPulse(strokes, followedBy(strokes, best.periodUs)), confidence };
}

const isNear = (periodUs: number, other: number, share: number): boolean =>
  Math.abs(periodUs / other - 1) < share;

/** What may be a grace note comes ahead of the pulse and does not lead it. */
const followedBy = (strokes: readonly PlayedStroke[], periodUs: number): Followed =>
  followPulse(
    strokes.map(({ timeUs }) => timeUs),
    periodUs,
    mayBeGrace(strokes),
  );

interface HeardOnPulse extends Pulse {
  /** Nats. */
  readonly cost: number;
}

function heardOnPulse(
  strokes: readonly PlayedStroke[],
  { places, periodUs }: Followed,
): HeardOnPulse {
  const first = Math.round(min(places));
  const placed = strokes.map((stroke, i) => ({ ...stroke, beat: places[i]! - first }));
  const heard = hearOn(placed, periodUs, PULSE);
  const { cycle, onTheGrid } = heard;
  const noted = new Set<number>();
  let cost = timingCost(placed, heard);
  if (cycle) {
    onTheGrid.forEach(({ partial }, i) => {
      if (cycle.ofNotes[i] === 1) noted.add(partial % cycle.partials);
      else cost -= EXTRA;
    });
    cost += cycle.cost + cycle.notes * Math.log((USUAL_MS * 1000) / periodUs);
  }
  const pulse = { periodUs, places: placed.map(({ beat }) => beat), cyclePulses: cycle?.partials };
  return { ...coarsened(pulse, noted), cost };
}

/** Without every place on which no note ever is. */
function coarsened(pulse: Pulse, noted: ReadonlySet<number>): Pulse {
  const { cyclePulses, periodUs, places } = pulse;
  const [first] = noted;
  if (cyclePulses === undefined || first === undefined) return pulse;
  const parts = [...noted].reduce((common, at) => gcd(common, at - first), cyclePulses);
  if (periodUs * parts > LONGEST_US) return pulse;
  return {
    cyclePulses: cyclePulses / parts,
    periodUs: periodUs * parts,
    places: places.map((place) => (place - first) / parts),
  };
}
