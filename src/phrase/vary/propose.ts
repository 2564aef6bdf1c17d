import { layerStack, type LayerStack } from '../layers/layer-stack';
import type { Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { stackTimeline } from '../layers/timeline';
import type { Voice } from '../model/voice';
import { Draws } from './draws';
import { offers, type Variation } from './offer';
import { Subject } from './subject';
import { TwistRange } from './twist-range';
import type { Twist } from './vary';

/** What a proposed variation has to keep to. */
export interface Constraints {
  /** No other limb plays. */
  readonly limbs?: readonly Limb[];
  /** No other voice sounds. */
  readonly voices?: readonly Voice[];
  /** See playability. */
  readonly highestDifficulty?: number;
  /** From the original, both ends included. */
  readonly distance?: readonly [number, number];
  /** The tempo at which it has to be playable; the phrase's own unless given. */
  readonly bpm?: number;
}

/** Tries by chance, and looks after that, for each variation wanted. Chosen, not measured: where so many miss, the constraints leave little. */
const TRIES = 20;
/** Cycles that a try lays on, about: of a phrase that takes so long to lay on that few are in reach there are fewer tries. Chosen. */
const CYCLES_A_TRY = 4;

/**
 * Up to `count` different variations of one or two twists within the constraints. They are drawn by chance, and where
 * chance finds too few, what it has not come upon is looked through; there are fewer when there are no more, or when
 * they are hard to find. `share` gives numbers from 0 up to but not including 1: the same numbers, the same variations.
 *
 * @example proposeVariations(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 2, {}, () => 0.5).length // => 2
 */
export function proposeVariations(
  phrase: Phrase,
  count: number,
  constraints: Constraints,
  share: () => number,
): readonly Variation[] {
  const original = new Subject({ stack: layerStack(phrase), sentence: '' });
  if (original.voices.length === 0) return [];
  const { limbs, voices } = constraints;
  const range = new TwistRange(limbs, voices);
  const draws = new Draws(share);
  const search = new Search(original, constraints);
  const inReach = Math.floor(original.stack.cyclesInReach / CYCLES_A_TRY);
  const most = count * Math.min(TRIES, Math.max(1, inReach));
  for (let tries = most; tries > 0 && search.found.length < count; tries--) {
    const drawn = drawVaried(original, range, draws);
    if (drawn) search.lookAt(drawn);
  }
  let looks = most;
  if (search.found.length < count)
    for (const varied of everyVaried(original, range)) {
      search.lookAt(varied);
      if (search.found.length === count || --looks === 0) break;
    }
  return search.found;
}

/** Looks at one variation after the other, and keeps those that may be offered within constraints. */
class Search {
  readonly found: Variation[] = [];
  readonly #constraints: Constraints;
  readonly #offered: ReturnType<typeof offers>;
  readonly #known = new Set<number>();
  readonly #numbers = new PhraseNumbers();

  constructor(original: Subject, constraints: Constraints) {
    this.#constraints = constraints;
    this.#offered = offers(original.stack, constraints.bpm);
  }

  lookAt(varied: Subject): void {
    if (varied.isTried) return;
    varied.isTried = true;
    if (!keepsTo(varied.stack, this.#constraints)) return;
    const number = this.#numbers.of(varied.stack);
    if (this.#known.has(number)) return;
    this.#known.add(number);
    const variation = this.#offered(varied);
    if (variation && isWithin(variation, this.#constraints)) this.found.push(variation);
  }
}

function keepsTo(stack: LayerStack, { limbs, voices }: Constraints): boolean {
  if (!limbs && !voices) return true;
  return stackTimeline(stack).notes.every(
    ({ limb, voice }) => (limbs?.includes(limb) ?? true) && (voices?.includes(voice) ?? true),
  );
}

function isWithin(offered: Variation, constraints: Constraints): boolean {
  const [least, most] = constraints.distance ?? [0, Infinity];
  return (
    offered.distance >= least &&
    offered.distance <= most &&
    offered.difficulty <= (constraints.highestDifficulty ?? Infinity)
  );
}

/** Twisted once or twice by chance; undefined when the twist does not suit it, or the two were drawn before. */
function drawVaried(original: Subject, range: TwistRange, draws: Draws): Subject | undefined {
  const twist = range.draw(original, draws);
  const once = original.twist(twist);
  if (!once || draws.share() < 0.5 || once.voices.length === 0) return once;
  const next = range.draw(once, draws);
  return next.kind === twist.kind ? once : once.twistAnew(next);
}

/** Twisted once in every way, then twice in every way that was not asked for before, the kinds of twist mixed. */
function* everyVaried(original: Subject, range: TwistRange): Generator<Subject> {
  const ways: { readonly once: Subject; readonly nexts: readonly Twist[] }[] = [];
  for (const twist of range.all(original)) {
    const once = original.twist(twist);
    if (!once) continue;
    yield once;
    const nexts = once.voices.length > 0 ? range.all(once) : [];
    ways.push({ once, nexts: nexts.filter(({ kind }) => kind !== twist.kind) });
  }
  const most = Math.max(0, ...ways.map(({ nexts }) => nexts.length));
  for (let round = 0; round < most; round++)
    for (const [i, { once, nexts }] of ways.entries()) {
      const next = round < nexts.length ? nexts[(i + round) % nexts.length] : undefined;
      const twice = next && once.twistAnew(next);
      if (twice) yield twice;
    }
}

/** Tells phrases of one title, meter, tempo and swing apart: those that are alike have the same number. */
class PhraseNumbers {
  readonly #numbers = new Map<string, number>();
  readonly #known = new WeakMap<LayerStack, number>();

  of(stack: LayerStack): number {
    let number = this.#known.get(stack);
    if (number === undefined) this.#known.set(stack, (number = this.#find(stack)));
    return number;
  }

  #find({ below, phrase }: LayerStack): number {
    const { subdivision, groupingText, cycle, layers } = phrase;
    const start = below ? this.of(below) : `${subdivision} ${groupingText} ${cycle}`;
    const key = `${start} ${JSON.stringify(layers.at(-1))}`;
    let number = this.#numbers.get(key);
    if (number === undefined) this.#numbers.set(key, (number = this.#numbers.size));
    return number;
  }
}
