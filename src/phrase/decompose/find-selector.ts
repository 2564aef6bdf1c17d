import { beats, mixedNumber } from '../../time/beats';
import { divisors, gcd, remainder } from '../../time/whole';
import type { Selector } from '../model/phrase';
import { MAX_CYCLE } from '../model/phrase-file';
import type { Cell, Sheet } from './cell';

/** How notes are selected. */
export interface Selection {
  readonly where: Selector;
  /** Whether its `every` is an accent cycle, of one place. */
  readonly areAccents?: boolean;
}

/** A selection that holds every note it must and none it must not. */
export interface ExactSelection extends Selection {
  /** Words beyond those of a set with one setting. */
  readonly length: number;
}

const SINGLE = ['limb', 'voice', 'level'] as const;
const PLACES = ['positions', 'nth', 'beats'] as const;
const PLACE_OF = { positions: 'position', nth: 'nth', beats: 'partialOfBar' } as const;

/**
 * The selection of fewest words that holds all of `must` and none of `never`, among limb, voice and
 * level that all of `must` share, what none of them has, and one list of places, named or excepted;
 * undefined when there is none. `mayCount` allows an accent cycle instead, where that is shorter.
 * Places that come round whatever the cycle are the last to be tried.
 */
export function findSelector(
  must: readonly Cell[],
  never: readonly Cell[],
  sheet: Sheet,
  mayCount: boolean,
): ExactSelection | undefined {
  const search = new Search(must, sheet, mayCount);
  const tries = bases(must).map((base) => ({
    base,
    left: never.filter((cell) => SINGLE.every((key) => !base[key] || base[key] === cell[key])),
  }));
  for (const { base, left } of tries) {
    search.narrow(base, left);
    if (left.length === 0) continue;
    for (const key of SINGLE)
      for (const value of new Set(left.map((cell) => cell[key])))
        if (!base[key] && must.every((cell) => cell[key] !== value))
          search.narrow(
            { ...base, not: { [key]: value } },
            left.filter((cell) => cell[key] !== value),
          );
    if (must[0]!.isPickup && must.every((cell) => cell.isPickup)) {
      const positions = Array.from({ length: sheet.cycle }, (_, i) => i + 1);
      search.narrow(
        { ...base, not: { positions } },
        left.filter((cell) => cell.isPickup),
      );
    }
  }
  for (const { base, left } of tries) search.comeRound(base, left);
  return search.best;
}

/** Every choice of the keys that all of `must` share, fewest first. */
function bases(must: readonly Cell[]): Selector[] {
  const first = must[0]!;
  const shared = SINGLE.filter((key) => must.every((cell) => cell[key] === first[key]));
  const grace = first.isGrace ? { grace: true } : {};
  const choices: Selector[] = [grace];
  for (const key of shared)
    for (const choice of choices.slice()) choices.push({ ...choice, [key]: first[key] });
  return choices.sort((a, b) => Object.keys(a).length - Object.keys(b).length);
}

class Search {
  best: ExactSelection | undefined;
  readonly #must: readonly Cell[];
  readonly #sheet: Sheet;
  readonly #onlyPickup: boolean;
  readonly #noPickup: boolean;
  /** Places of the notes to be held, by kind. */
  readonly #named: Readonly<Record<(typeof PLACES)[number], ReadonlySet<number>>>;
  /** Accent cycles that meet all of them, longest first. */
  readonly #counts: readonly number[];
  readonly #first: number;
  /** What places can come round after. */
  readonly #rounds: readonly number[];
  /** Places of the notes to be held among so many partials. */
  readonly #placesOf = new Map<number, ReadonlySet<number>>();

  constructor(must: readonly Cell[], sheet: Sheet, mayCount: boolean) {
    const places = (key: (typeof PLACES)[number]) => new Set(must.map((c) => c[PLACE_OF[key]]));
    this.#must = must;
    this.#sheet = sheet;
    this.#rounds = roundsOf(sheet);
    this.#onlyPickup = must.every((cell) => cell.isPickup);
    this.#noPickup = must.every((cell) => !cell.isPickup);
    this.#named = { positions: places('positions'), nth: places('nth'), beats: places('beats') };
    this.#first = must[0]!.partial;
    this.#counts = mayCount && this.#noPickup ? accentCycles(must, sheet) : [];
  }

  /** Tries a selector that leaves these notes to be excluded: as it is, and with a list of places. */
  narrow(where: Selector, left: readonly Cell[]): void {
    const words = wordsOf(where);
    if (this.best && words > this.best.length) return;
    if (left.length === 0) {
      this.#offer({ where, length: words });
      return;
    }
    const onlyPickup = this.#onlyPickup && left.every((cell) => cell.isPickup);
    const meetsBar = this.#sheet.span % this.#sheet.barPartials === 0;
    for (const key of PLACES)
      if (key !== 'beats' || onlyPickup || meetsBar) this.#place(where, words, key, left);
    for (const accentEvery of this.#counts) this.#count(where, words, accentEvery, left);
  }

  #place(
    where: Selector,
    words: number,
    key: (typeof PLACES)[number],
    left: readonly Cell[],
  ): void {
    const place = PLACE_OF[key];
    const named = this.#named[key];
    const most = this.best?.length ?? Infinity;
    const length = words + 1 + named.size;
    const canName = key === 'beats' || this.#noPickup;
    if (canName && length <= most && left.every((cell) => !named.has(cell[place])))
      this.#offer({ where: { ...where, [key]: this.#list(key, named) }, length });
    const canExcept = key === 'beats' || left.every((cell) => !cell.isPickup);
    if (where.not !== undefined || !canExcept || words + 3 > most) return;
    const excepted = new Set(left.map((cell) => cell[place]));
    if (words + 2 + excepted.size <= most && [...excepted].every((at) => !named.has(at)))
      this.#offer({
        where: { ...where, not: { [key]: this.#list(key, excepted) } },
        length: words + 2 + excepted.size,
      });
  }

  #count(where: Selector, words: number, accentEvery: number, left: readonly Cell[]): void {
    const at = remainder(this.#first, accentEvery);
    const length = words + 1 + (at === 0 ? 0 : 1);
    if (this.best && length >= this.best.length) return;
    if (left.every((cell) => cell.isPickup || remainder(cell.partial, accentEvery) !== at))
      this.#offer({
        where: { ...where, every: { partials: accentEvery, at: [at + 1] } },
        areAccents: true,
        length,
      });
  }

  /** Tries a selector with the places that come round after each number of partials that fits the pattern. */
  comeRound(where: Selector, left: readonly Cell[]): void {
    if (!this.#noPickup) return;
    for (const partials of this.#rounds) {
      if (this.best && wordsOf(where) + 4 >= this.best.length) return;
      const at = this.#placesIn(partials);
      const length = wordsOf(where) + 3 + at.size;
      if (this.best && length >= this.best.length) continue;
      if (left.some((cell) => !cell.isPickup && at.has(remainder(cell.partial, partials) + 1)))
        continue;
      const every = { partials, at: [...at].sort((a, b) => a - b) };
      this.#offer({ where: { ...where, every }, length });
    }
  }

  #placesIn(partials: number): ReadonlySet<number> {
    let places = this.#placesOf.get(partials);
    if (!places) {
      places = new Set(this.#must.map((cell) => remainder(cell.partial, partials) + 1));
      this.#placesOf.set(partials, places);
    }
    return places;
  }

  #list(key: (typeof PLACES)[number], places: ReadonlySet<number>) {
    const sorted = [...places].sort((a, b) => a - b);
    const { subdivision } = this.#sheet;
    return key === 'beats'
      ? sorted.map((at) => mixedNumber(beats(at + subdivision, subdivision)))
      : sorted;
  }

  #offer(found: ExactSelection): void {
    const { best } = this;
    const isPlainer = found.length === best?.length && best.areAccents && !found.areAccents;
    if (!best || found.length < best.length || isPlainer) this.best = found;
  }
}

/** Every accent cycle that all of these notes are on and that comes out even with the pattern, longest first. */
function accentCycles(must: readonly Cell[], { span }: Sheet): readonly number[] {
  const first = must[0]!.partial;
  const steps = must.reduce((sum, { partial }) => gcd(sum, partial - first), span);
  return divisors(steps)
    .filter((every) => every > 1 && every <= MAX_CYCLE)
    .reverse();
}

/**
 * Partials that come out even with the pattern, fewest first, but not those that positions of the cycle or beats
 * of the bar tell in plainer words.
 */
export function roundsOf({ span, cycle, barPartials }: Sheet): readonly number[] {
  const meetsBar = span % barPartials === 0;
  return divisors(span).filter(
    (partials) => cycle % partials !== 0 && !(meetsBar && barPartials % partials === 0),
  );
}

/** The words of a selector whose lists have not been added yet. */
const wordsOf = ({ not, ...single }: Selector): number =>
  Object.keys(single).length + (not ? 1 + (not.positions ? 1 + not.positions.length : 1) : 0);
