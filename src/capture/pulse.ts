import { gcd } from '../time/whole';
import { EXTRA } from './cycle-length';
import { followPulse, type Followed } from './follow-pulse';
import { hearOn } from './hear-on';
import type { PlayedStroke } from './played-stroke';
import { pulseCandidates } from './pulse-candidates';
import type { BeatGrid } from './subdivision';
import { timingCost } from './timing-cost';

/** An even pulse that the strokes keep to, slow drift allowed: the partial, as long as no note needs a shorter one. */
export interface Pulse extends Followed {
  /** Pulses after which the strokes repeat; undefined where nothing was played twice. */
  readonly cyclePulses: number | undefined;
}

const PULSE: BeatGrid = { subdivision: 1, swing: undefined, places: [0], rareness: 0 };
/** What cycles cost is told for partials this long; on shorter ones there are more places to say. Chosen: a sixteenth at 150. */
const USUAL_MS = 100;
const LEAST_STROKES = 8;
/** Strokes that the pulses are compared on at most. Chosen for speed. */
const MOST_COMPARED = 400;

/**
 * The even pulse on which the strokes have the shortest description: what repeats, at which of its places, and
 * how far from them; then without the places on which no note ever is. Undefined with fewer than eight strokes.
 */
export function findPulse(strokes: readonly PlayedStroke[]): Pulse | undefined {
  if (strokes.length < LEAST_STROKES) return undefined;
  const compared = strokes.slice(0, MOST_COMPARED);
  const compare = compared.map(({ timeUs }) => timeUs);
  const [best] = pulseCandidates(compare)
    .map((periodUs) => followPulse(compare, periodUs))
    .map((followed) => heardOnPulse(compared, followed))
    .sort((a, b) => a.cost - b.cost);
  if (!best) return undefined;
  if (compared.length === strokes.length) return coarsened(best);
  const times = strokes.map(({ timeUs }) => timeUs);
  return coarsened(heardOnPulse(strokes, followPulse(times, best.periodUs)));
}

interface HeardOnPulse extends Pulse {
  /** Pulses of the cycle on which notes are. */
  readonly noted: ReadonlySet<number>;
  /** Nats. */
  readonly cost: number;
}

function heardOnPulse(
  strokes: readonly PlayedStroke[],
  { places, periodUs }: Followed,
): HeardOnPulse {
  const first = Math.round(Math.min(...places));
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
  return {
    periodUs,
    places: placed.map(({ beat }) => beat),
    cyclePulses: cycle?.partials,
    noted,
    cost,
  };
}

/** Without every place on which no note ever is. */
function coarsened({ cyclePulses, periodUs, places, noted }: HeardOnPulse): Pulse {
  const [first] = noted;
  if (cyclePulses === undefined || first === undefined) return { cyclePulses, periodUs, places };
  const parts = [...noted].reduce((common, at) => gcd(common, at - first), cyclePulses);
  return {
    cyclePulses: cyclePulses / parts,
    periodUs: periodUs * parts,
    places: places.map((place) => (place - first) / parts),
  };
}
