import { passageSpan, type Plan } from '../../match/plan';
import { enlarge } from '../../match/enlarge';
import { remainder } from '../../time/whole';
import { PlaceFilter } from './place-filter';
import { PlaceGrid } from './place-grid';
import { placePattern, type PlacePattern } from './place-pattern';
import { PlayerGrid } from './player-grid';
import type { Slip } from './slip';
import { SymbolLikelihoods, type PartialSound } from './symbol-likelihoods';

/** From this posterior probability on a place is certain. */
export const CERTAIN = 0.99;
/** Never told from fewer partials than these that agree with the new place and not with the old one. */
export const INFORMATIVE = 3;
/** Who plays farther than this from the click's partials, in partials, is late or early, and not elsewhere. Chosen, not measured. */
const ON_CLICK = 1 / 3;
/** How far back a slip may have begun when it is certain, cycles of the pattern, and partials. Chosen, not measured. */
const BACK = { rounds: 4, partials: 64 };

/** Of a partial that the player has passed over, in place of its voices without level. */
const UNHEARD = -1;

interface Room {
  readonly pattern: PlacePattern;
  readonly filter: PlaceFilter;
  readonly likelihoods: SymbolLikelihoods;
}

const SILENCE = { voices: 0, accents: 0, louderThanGhosts: 0, withoutLevel: 0 };

/**
 * Says where in the phrase a player is, stroke by stroke in the order of time: each stroke belongs to the partial that is
 * nearest in the player's own tempo, and each partial that is over is heard by a filter over all places. Nothing is
 * allocated per stroke while no slip begins or ends.
 */
export class PlaceFollower {
  readonly grid = new PlaceGrid();
  readonly slips: Slip[] = [];
  readonly #rooms = new Map<number, Room | undefined>();
  readonly #player = new PlayerGrid();
  /** Of the partial that is heard now; of several strokes of a voice the loudest counts. */
  readonly #open = { ...SILENCE };
  readonly #heard: PartialSound = { voices: 0, accents: 0, ghosts: 0, withoutLevel: 0 };
  #plan: Plan;
  #room: Room | undefined;
  #passage = -1;
  /** The partial that is heard now: an index into the grid. */
  #at = 0;
  #isStruck = false;
  /** The place told last: a shift of the pattern. */
  #shift = 0;
  /** Where that place began: an index into the grid. */
  #since = 0;
  #voices = new Int32Array(1024);
  #accents = new Int32Array(1024);
  #ghosts = new Int32Array(1024);
  #withoutLevel = new Int32Array(1024);

  constructor(plan: Plan) {
    this.#plan = plan;
  }

  /** Lays out the partials of a plan up to `untilUs`, and those from what is heard on anew where it is another one. Cycle rate. */
  extendTo(plan: Plan, untilUs: number): void {
    const { grid } = this;
    this.#plan = plan;
    grid.extendTo(plan, untilUs, (grid.timeUs[this.#at] ?? -Infinity) + 1);
    const size = grid.timeUs.length;
    if (size <= this.#voices.length) return;
    this.#voices = enlarge(this.#voices, new Int32Array(size));
    this.#accents = enlarge(this.#accents, new Int32Array(size));
    this.#ghosts = enlarge(this.#ghosts, new Int32Array(size));
    this.#withoutLevel = enlarge(this.#withoutLevel, new Int32Array(size));
  }

  /** A stroke, in the order of time; `voice` by its number. */
  strike(
    timeUs: number,
    voice: number,
    isAccent: boolean,
    isGhost: boolean,
    hasLevel: boolean,
  ): void {
    this.passTime(timeUs);
    const { grid } = this;
    const at = this.#at;
    if (at >= grid.count) return;
    const length = grid.lengthUs[at]!;
    const offset = (timeUs - grid.timeUs[at]!) / length;
    if (offset - this.#player.offsetAt(grid.partial[at]!) < -1) return;
    const open = this.#open;
    const bit = 1 << voice;
    open.voices |= bit;
    if (isAccent) open.accents |= bit;
    if (!isGhost) open.louderThanGhosts |= bit;
    if (!hasLevel) open.withoutLevel |= bit;
    if (this.#isStruck) return;
    this.#isStruck = true;
    const over = this.#player.follow(grid.partial[at]!, offset);
    if (over !== 0) this.#carry(over > 0 ? 1 : -1);
  }

  /** No stroke before this will come any more. */
  passTime(timeUs: number): void {
    while (this.#at + 1 < this.grid.count && this.#edgeUs(this.#at) <= timeUs) this.#close();
  }

  /** No stroke will come any more. */
  finish(): void {
    if (this.#isStruck && this.#at + 1 < this.grid.count) this.#close();
  }

  /** Where a partial ends for the player, halfway to the next. */
  #edgeUs(at: number): number {
    const { grid } = this;
    const length = grid.lengthUs[at]!;
    const isLast = grid.passage[at + 1] !== grid.passage[at];
    const toNext = isLast ? length : grid.timeUs[at + 1]! - grid.timeUs[at]!;
    const offset =
      grid.passage[at] === this.#passage ? this.#player.offsetAt(grid.partial[at]!) : 0;
    return grid.timeUs[at]! + toNext / 2 + offset * length;
  }

  /** Another partial of the click is nearer: what is open belongs there. */
  #carry(by: 1 | -1): void {
    const at = this.#at;
    const { grid } = this;
    if (grid.passage[at] !== this.#passage || grid.passage[at + by] !== this.#passage) return;
    if (by > 0) this.#withoutLevel[at] = UNHEARD;
    this.#at += by;
    this.#room?.filter.turn(by);
  }

  #close(): void {
    const at = this.#at++;
    const open = this.#open;
    if (this.grid.passage[at] !== this.#passage) this.#enter(at);
    this.#voices[at] = open.voices;
    this.#accents[at] = open.accents;
    this.#ghosts[at] = open.voices & ~open.louderThanGhosts;
    this.#withoutLevel[at] = open.withoutLevel;
    Object.assign(open, SILENCE);
    this.#isStruck = false;
    const room = this.#room;
    if (!room) return;
    room.likelihoods.hear(this.#heardAt(at));
    room.filter.hear(this.#patternPartial(at), room.likelihoods.values, room.likelihoods.otherwise);
    // Silence decides nothing: nobody knows whether it goes on.
    if (this.#voices[at] !== 0) this.#decide(room, at);
  }

  #enter(at: number): void {
    const passage = this.grid.passage[at]!;
    const { layer } = this.#plan.passages[passage]!;
    this.#leavePassage(at);
    this.#passage = passage;
    this.#since = at;
    this.#shift = 0;
    if (!this.#rooms.has(layer))
      this.#rooms.set(layer, roomOf(placePattern(this.#plan.phrase, layer)));
    this.#room = this.#rooms.get(layer);
    this.#room?.filter.reset();
    this.#player.reset(this.grid.partial[at]!);
  }

  #decide({ filter, pattern }: Room, at: number): void {
    const { posterior, neither } = filter;
    let best = 0;
    for (let state = 1; state <= neither; state++)
      if (posterior[state]! > posterior[best]!) best = state;
    if (best === this.#shift || posterior[best]! < CERTAIN) return;
    if (best === neither) {
      if (this.#shift === 0) return;
      this.#endSlip(this.grid.timeUs[at]!);
      this.#shift = 0;
      this.#since = at;
      return;
    }
    const player = this.#player;
    if (player.isCarried || Math.abs(player.offsetAt(this.grid.partial[at]!)) > ON_CLICK) return;
    const from = this.#onset(best, at, pattern.partials.length);
    if (from < 0) return;
    this.#endSlip(this.grid.timeUs[from]!);
    this.#shift = best;
    this.#since = from;
    if (best === 0) return;
    this.slips.push({
      partials: signed(best, neither),
      fromUs: this.grid.timeUs[from]!,
      toUs: undefined,
      certainUs: this.grid.timeUs[at]!,
      passage: this.#passage,
      repeats: neither,
    });
  }

  /** A slip goes no farther than its passage, which may end a count-in ahead of the next. */
  #leavePassage(at: number): void {
    const to = this.#passage < 0 ? undefined : passageSpan(this.#plan, this.#passage).to;
    const startUs = this.grid.timeUs[at]!;
    this.#endSlip(to ? Math.min(startUs, this.#plan.tempo.usAt(to)) : startUs);
  }

  #endSlip(toUs: number): void {
    const last = this.slips.at(-1);
    if (!last || last.toUs !== undefined) return;
    this.slips[this.slips.length - 1] = { ...last, toUs };
  }

  /**
   * The partial from which on the new place explains most more than the one told last does (the start of the highest
   * rise: Page, Biometrika 41, 1954); the earliest of several. -1 where too few tell the two apart.
   */
  #onset(shift: number, at: number, length: number): number {
    const { likelihoods, pattern } = this.#room!;
    const first = Math.max(this.#since, at - BACK.rounds * length - BACK.partials);
    let sum = 0;
    let most = 0;
    let from = -1;
    let agreeing = 0;
    let agreeingFrom = 0;
    for (let k = at; k >= first; k--) {
      if (this.#withoutLevel[k] === UNHEARD) continue;
      likelihoods.hear(this.#heardAt(k));
      const partial = this.#patternPartial(k);
      const there = likelihoods.values[pattern.partials[remainder(partial - shift, length)]!]!;
      const here = likelihoods.values[pattern.partials[remainder(partial - this.#shift, length)]!]!;
      sum += Math.log(there / here);
      if (there > here) agreeing++;
      if (sum < most) continue;
      most = sum;
      from = k;
      agreeingFrom = agreeing;
    }
    return agreeingFrom >= INFORMATIVE ? from : -1;
  }

  #patternPartial(at: number): number {
    return remainder(this.grid.partial[at]!, this.#room!.pattern.partials.length);
  }

  #heardAt(at: number): PartialSound {
    const heard = this.#heard;
    heard.voices = this.#voices[at]!;
    heard.accents = this.#accents[at]!;
    heard.ghosts = this.#ghosts[at]!;
    heard.withoutLevel = this.#withoutLevel[at]!;
    return heard;
  }
}

function roomOf(pattern: PlacePattern | undefined): Room | undefined {
  if (!pattern || pattern.symbols.length < 2) return undefined;
  return {
    pattern,
    filter: new PlaceFilter(pattern.partials),
    likelihoods: new SymbolLikelihoods(pattern),
  };
}

/** The shorter way round. */
const signed = (shift: number, length: number): number =>
  2 * shift > length ? shift - length : shift;
