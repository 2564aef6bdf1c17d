import { freeHand, type Hand, type Limb } from '../model/limb';
import type { Voice } from '../model/voice';
import { isFootVoice, PLACES, placesApart } from './places';

/** A note that wants a limb; notes come in time order, and a cycle of them repeats. */
export interface LimblessNote {
  readonly partial: number;
  readonly voice: Voice;
}

export interface LikelySticking {
  /** One a note; undefined for a note that no hand is left for. */
  readonly limbs: readonly (Limb | undefined)[];
  /** Of the hands' strokes, how many have one clearly cheaper hand, 0 to 1; never sure, since no sound tells the hand. */
  readonly confidence: number;
}

const HANDS: readonly Hand[] = ['R', 'L'];

/**
 * Costs of a hand's stroke. One hand repeats no faster than ten times a second (world's fastest drummer,
 * Fujii et al., Neurosci. Lett. 459, 2009) and rarely faster than seven (the usual limit of one-handed
 * tapping, same source); the rest is chosen, not measured: hands alternate, travel little, do not cross.
 */
const IMPOSSIBLE_US = 100_000;
const HARD_US = 145_000;
const IMPOSSIBLE = 40;
const HARD = 3;
const NOT_ALTERNATING = 0.6;
/** After so long a rest either hand is as good. Chosen. */
const RESTED_US = 500_000;
/** A metre. Of 0.8 to 3.2, what gives most of the hands that the library's phrases are written with, 675 of 776. */
const TRAVEL = 2.4;
const CROSSED = 1.2;
/** The right hand leads: it takes what starts a cycle, and the ride, unless something speaks against it. */
const LEFT_LEADS = 0.3;
/**
 * Slower than this one hand keeps the time on a hi-hat or ride by itself, and the other does not take it over.
 * Common practice, no source; the limit is chosen.
 */
const STEADY_US = 180_000;
const HANDED_OVER = 1;

interface HandPast {
  readonly atUs: number;
  readonly voice: Voice;
}
interface Path {
  readonly cost: number;
  readonly hands: readonly (readonly Hand[])[];
  readonly past: Readonly<Record<Hand, HandPast>>;
  readonly last: Hand;
}

const START: Readonly<Record<Hand, HandPast>> = {
  R: { atUs: -Infinity, voice: 'snare' },
  L: { atUs: -Infinity, voice: 'snare' },
};

/** Doubles are common, and a pad does not tell the hand: below the limit of being sure. Chosen. */
const AT_MOST = 0.55;

/** Paths kept: by which hand struck last and how long each has rested, the cheapest few of all. */
const BEAM = 24;

/**
 * The cheapest hands for a cycle played twice round, by dynamic programming over what each hand struck
 * last (the cheapest paths only); feet are known by their voice. The second round is the answer, since
 * the first begins from nowhere.
 */
export function findSticking(
  notes: readonly LimblessNote[],
  cycle: number,
  partialUs: number,
  leads?: Hand,
): LikelySticking {
  const steps = stepsOf(notes);
  const led = leads && steps.find(({ hands }) => hands.length === 1);
  let paths: Path[] = [{ cost: 0, hands: [], past: START, last: 'L' }];
  for (let round = 0; round < 2; round++)
    for (const step of steps) {
      const { partial, hands } = step;
      const atUs = (partial + round * cycle) * partialUs;
      const voices = hands.map((i) => notes[i]!.voice);
      const isFirst = partial === steps[0]!.partial;
      const longer = paths.flatMap((path) => continued(path, voices, atUs, isFirst));
      paths = cheapest(
        step === led ? longer.filter((path) => path.hands.at(-1)![0] === leads) : longer,
      );
    }
  const best = paths[0]!;
  const limbs: (Limb | undefined)[] = notes.map(({ voice }) =>
    !isFootVoice(voice) ? undefined : voice === 'bass drum' ? 'K' : 'F',
  );
  steps.forEach(({ hands }, s) =>
    hands.forEach((i, k) => (limbs[i] = best.hands[steps.length + s]![k])),
  );
  const forced = paths.filter((path) => path.cost < best.cost + 1);
  const same = steps.filter((_, s) =>
    forced.every(
      (path) => path.hands[steps.length + s]!.join() === best.hands[steps.length + s]!.join(),
    ),
  );
  return { limbs, confidence: steps.length === 0 ? 1 : (AT_MOST * same.length) / steps.length };
}

/** Notes for the hands by partial, two at the most: what is struck with a third hand is left out. */
function stepsOf(notes: readonly LimblessNote[]) {
  const steps = new Map<number, number[]>();
  notes.forEach(({ partial, voice }, i) => {
    if (isFootVoice(voice)) return;
    const step = steps.get(partial) ?? [];
    if (step.length < 2) step.push(i);
    steps.set(partial, step);
  });
  return [...steps].map(([partial, hands]) => ({ partial, hands }));
}

function continued(path: Path, voices: readonly Voice[], atUs: number, leads: boolean): Path[] {
  const choices: (readonly Hand[])[] =
    voices.length === 1
      ? HANDS.map((hand) => [hand])
      : [
          ['R', 'L'],
          ['L', 'R'],
        ];
  return choices.map((hands) => {
    const past = { ...path.past };
    let cost = path.cost;
    hands.forEach((hand, k) => {
      cost += strokeCost(path.past[hand], voices[k]!, atUs);
      if (takesOver(path.past, hand, voices[k]!, atUs)) cost += HANDED_OVER;
      past[hand] = { atUs, voice: voices[k]! };
    });
    const [hand] = hands;
    if (hands.length === 1 && hand === path.last && !mayRepeat(path.past[hand], voices[0]!, atUs))
      cost += NOT_ALTERNATING;
    if (leads && hand === 'L') cost += LEFT_LEADS;
    if (isCrossed(past)) cost += CROSSED;
    const last = hands.length === 1 ? hand! : path.last;
    return { cost, hands: [...path.hands, hands], past, last };
  });
}

/** The right hand on the hi-hat over the left on the snare is how a groove is played: common practice, no source. */
const isCrossed = ({ R, L }: Readonly<Record<Hand, HandPast>>): boolean =>
  !isHiHat(R.voice) && PLACES[R.voice].x < PLACES[L.voice].x;

const isTimeVoice = (voice: Voice): boolean =>
  isHiHat(voice) || voice === 'ride' || voice === 'ride bell';

/** The hand goes on with the time where it was, at a pace that one hand keeps up. */
const keepsTime = (past: HandPast, voice: Voice, atUs: number): boolean =>
  isTimeVoice(voice) && past.voice === voice && atUs - past.atUs >= STEADY_US;

const mayRepeat = (past: HandPast, voice: Voice, atUs: number): boolean =>
  atUs - past.atUs >= RESTED_US || keepsTime(past, voice, atUs);

/** The hand strikes where the other one has been keeping the time. */
function takesOver(
  past: Readonly<Record<Hand, HandPast>>,
  hand: Hand,
  voice: Voice,
  atUs: number,
): boolean {
  const other = past[freeHand(hand)];
  const own = past[hand];
  return keepsTime(other, voice, atUs) && (own.voice !== voice || own.atUs < other.atUs);
}

const isHiHat = (voice: Voice): boolean => voice === 'hi-hat closed' || voice === 'hi-hat open';

function strokeCost(past: HandPast, voice: Voice, atUs: number): number {
  const since = atUs - past.atUs;
  const hurry = since < IMPOSSIBLE_US ? IMPOSSIBLE : since < HARD_US ? HARD : 0;
  return hurry + TRAVEL * placesApart(past.voice, voice) * Math.min(3, 250_000 / since);
}

/** One path for each state of the hands, and of these the cheapest. */
function cheapest(paths: readonly Path[]): Path[] {
  const states = new Map<string, Path>();
  for (const path of paths) {
    const { R, L } = path.past;
    const state = `${path.last} ${R.atUs} ${R.voice} ${L.atUs} ${L.voice}`;
    const known = states.get(state);
    if (!known || path.cost < known.cost) states.set(state, path);
  }
  return [...states.values()].sort((a, b) => a.cost - b.cost).slice(0, BEAM);
}
