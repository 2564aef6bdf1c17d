import type { TimedNote } from '../../match/timed-note';
import { LIMBS } from '../../phrase/model/limb';
import { VOICES, voiceNumber } from '../../phrase/model/voice';
import { groupBy } from '../../time/group-by';
import type { Units } from './units';

/**
 * How the offsets of a take go together beside what its notes ask for: a share of their variance that all strokes have in
 * common, the rest voice by voice, and how much of either stays from one of its strokes to the next (autoregressive processes of first
 * order). Professionals' hi-hats stay by 0.7, their bass drums by 0.3 (shared coaching notes, 5.4).
 */
export interface Togetherness {
  /** 0 to 1. */
  readonly common: number;
  /** 0 to below 1. */
  readonly stays: number;
}

/** Chosen, not measured: finer than a take can tell. */
const STAYS = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
const COMMON = [0, 0.25, 0.5, 0.75, 1];
/** Strokes apart that are looked at. Chosen, not measured: what stays by 0.7 is 0.24 then. */
const FARTHEST = 4;

/** The togetherness whose correlations lie nearest to those of the values (least squares), of notes in time order. */
export function togethernessOf(values: Float64Array, notes: readonly TimedNote[]): Togetherness {
  const left = besidePlaces(values, notes);
  const looks = [...ownPairs(left, notes), ...pairsOfVoices(left, notes)];
  let best: Togetherness & { readonly miss: number } = { common: 0, stays: 0, miss: Infinity };
  for (const stays of STAYS)
    for (const common of COMMON) {
      let miss = 0;
      for (const { strokes, own, pairs, correlation } of looks) {
        const alike = common * stays ** strokes + (own > 0 ? (1 - common) * stays ** own : 0);
        miss += pairs * (correlation - alike) ** 2;
      }
      if (miss < best.miss) best = { common, stays, miss };
    }
  return { common: best.common, stays: best.stays };
}

/** Less the mean of each place in the cycle, so that nothing is left of what its notes have in common; NaN stays. */
function besidePlaces(values: Float64Array, notes: readonly TimedNote[]): Float64Array {
  const left = Float64Array.from(values);
  const places = groupBy(values.keys(), (at) => {
    if (Number.isNaN(values[at]!)) return undefined;
    const { passage, note } = notes[at]!;
    return 1e6 * (LIMBS.length * passage + LIMBS.indexOf(note.limb)) + note.position;
  });
  for (const place of places.values()) {
    const mean = place.reduce((sum, at) => sum + values[at]!, 0) / place.length;
    for (const at of place) left[at]! -= mean;
  }
  return left;
}

/** Values so many strokes, and so many of their voice (0: of another), apart. */
interface Pairs {
  readonly strokes: number;
  readonly own: number;
  readonly pairs: number;
  readonly correlation: number;
}

function ownPairs(left: Float64Array, notes: readonly TimedNote[]): Pairs[] {
  const voices = [...groupBy(left.keys(), (at) => notes[at]!.note.voice).values()];
  return lags().flatMap((own) =>
    correlated(left, own, (add) => {
      for (const of of voices) for (let i = own; i < of.length; i++) add(of[i - own]!, of[i]!);
    }),
  );
}

const pairsOfVoices = (left: Float64Array, notes: readonly TimedNote[]): Pairs[] =>
  lags().flatMap((strokes) =>
    correlated(left, 0, (add) => {
      for (let i = strokes; i < left.length; i++)
        if (notes[i]!.note.voice !== notes[i - strokes]!.note.voice) add(i - strokes, i);
    }),
  );

const lags = () => Array.from({ length: FARTHEST }, (_, i) => i + 1);

function correlated(
  left: Float64Array,
  own: number,
  eachPair: (add: (a: number, b: number) => void) => void,
): Pairs[] {
  let [pairs, strokes, together, all] = [0, 0, 0, 0];
  eachPair((a, b) => {
    const [x, y] = [left[a]!, left[b]!];
    if (Number.isNaN(x) || Number.isNaN(y)) return;
    pairs++;
    strokes += b - a;
    together += x * y;
    all += (x * x + y * y) / 2;
  });
  if (pairs === 0 || all === 0) return [];
  return [{ strokes: strokes / pairs, own, pairs, correlation: together / all }];
}

/**
 * What variance the contrast of a group against the rest has (`contrastOf`), in terms of one value's, where the values go together so.
 * Of notes in time order; those without a value do not count.
 */
export function contrastVariances(
  values: Float64Array,
  units: Units,
  notes: readonly TimedNote[],
  { common, stays }: Togetherness,
): (group: readonly number[], rest: readonly number[]) => number {
  const voices = notes.map(({ note }) => voiceNumber(note.voice));
  const weights = new Float64Array(values.length);
  const ofVoice = new Float64Array(VOICES.length);
  return (group, rest) => {
    weigh(weights, values, units, [group, rest]);
    ofVoice.fill(0);
    let [all, own, ahead] = [0, 0, 0];
    for (let i = 0; i < weights.length; i++) {
      const weight = weights[i]!;
      const voice = voices[i]!;
      const aheadOfVoice = stays * ofVoice[voice]!;
      ahead *= stays;
      all += weight * (weight + 2 * ahead);
      own += weight * (weight + 2 * aheadOfVoice);
      ahead += weight;
      ofVoice[voice] = aheadOfVoice + weight;
    }
    return common * all + (1 - common) * own;
  };
}

/** By how much each value counts in the mean over units of the one side's mean less the other's. */
function weigh(
  weights: Float64Array,
  values: Float64Array,
  { count, of }: Units,
  [group, rest]: readonly [readonly number[], readonly number[]],
): void {
  weights.fill(0);
  const own = countByUnit(values, { count, of }, group);
  const others = countByUnit(values, { count, of }, rest);
  let both = 0;
  for (let unit = 0; unit < count; unit++) if (own[unit]! > 0 && others[unit]! > 0) both++;
  const weighSide = (places: readonly number[], counts: Int32Array, sign: number) => {
    const each = new Float64Array(count);
    for (let unit = 0; unit < count; unit++)
      if (own[unit]! > 0 && others[unit]! > 0) each[unit] = sign / counts[unit]! / both;
    for (const at of places) if (!Number.isNaN(values[at]!)) weights[at] = each[of[at]!]!;
  };
  weighSide(group, own, 1);
  weighSide(rest, others, -1);
}

function countByUnit(
  values: Float64Array,
  { count, of }: Units,
  places: readonly number[],
): Int32Array {
  const counts = new Int32Array(count);
  for (const at of places) if (!Number.isNaN(values[at]!)) counts[of[at]!]!++;
  return counts;
}
