import { PlaceFollower } from '../coach/place/place-follower';
import type { Slip } from '../coach/place/slip';
import type { Plan } from '../match/plan';
import { GRACE_US } from '../match/follower';
import { enlarge } from '../match/enlarge';
import type { LaneFeed } from './lane-feed';
import type { StrokeLevels } from './stroke-levels';

/** What the place is read from: a live take's strokes, in order of arrival. */
type PlaceSource = Pick<
  LaneFeed,
  'strokeCount' | 'strokeTimeUs' | 'strokeVoice' | 'strokeSetAside'
>;

/** Strokes that wait at once at most while none is made room for. */
const ROOM = 256;

/**
 * The place in the phrase while a take goes on: strokes wait until none before them is likely to come, and are then heard
 * in the order of time. What comes later still, or changes afterwards, lets all be heard again, so that it is what the
 * whole take says.
 */
export class LivePlace {
  readonly #strokes: PlaceSource;
  readonly #levels: StrokeLevels;
  #follower: PlaceFollower;
  #plan: Plan;
  #untilUs = 0;
  /** Waiting strokes from #first on, in the order of time. */
  #waiting = new Int32Array(ROOM);
  #first = 0;
  #count = 0;
  #isStale = false;
  #heardUs = -Infinity;

  constructor(plan: Plan, strokes: PlaceSource, levels: StrokeLevels) {
    this.#levels = levels;
    this.#plan = plan;
    this.#strokes = strokes;
    this.#follower = new PlaceFollower(plan);
  }

  get slips(): readonly Slip[] {
    return this.#follower.slips;
  }

  /** The plan may be another one from beyond what was heard; it is laid out up to `untilUs`. Cycle rate. */
  extendTo(plan: Plan, untilUs: number): void {
    this.#plan = plan;
    this.#untilUs = Math.max(this.#untilUs, untilUs);
    this.#follower.extendTo(plan, this.#untilUs);
  }

  /** A stroke that counts has arrived. Live path. */
  add(stroke: number): void {
    const { strokeTimeUs } = this.#strokes;
    const timeUs = strokeTimeUs[stroke]!;
    if (timeUs < this.#heardUs) this.#isStale = true;
    if (this.#first + this.#count === this.#waiting.length) this.#makeRoom();
    let at = this.#first + this.#count++;
    const waiting = this.#waiting;
    for (; at > this.#first && strokeTimeUs[waiting[at - 1]!]! > timeUs; at--)
      waiting[at] = waiting[at - 1]!;
    waiting[at] = stroke;
  }

  /** A stroke does not count any more. */
  withdraw(stroke: number): void {
    if (this.#strokes.strokeTimeUs[stroke]! <= this.#heardUs) this.#isStale = true;
  }

  /** Levels are told from other strokes than before. */
  changeLevels(): void {
    this.#isStale = true;
  }

  /** Hears what is not likely to change any more. */
  advance(nowUs: number): void {
    if (this.#isStale) this.#hearAgain();
    const untilUs = nowUs - GRACE_US;
    const { strokeTimeUs } = this.#strokes;
    while (this.#count > 0 && strokeTimeUs[this.#waiting[this.#first]!]! <= untilUs) {
      this.#hear(this.#waiting[this.#first++]!);
      this.#count--;
    }
    if (this.#count === 0) this.#first = 0;
    if (nowUs === Infinity) {
      this.#follower.finish();
      return;
    }
    this.#follower.passTime(untilUs);
    this.#heardUs = Math.max(this.#heardUs, untilUs);
  }

  #hear(stroke: number): void {
    const strokes = this.#strokes;
    this.#heardUs = strokes.strokeTimeUs[stroke]!;
    if (strokes.strokeSetAside[stroke] !== 0) return;
    this.#follower.strike(
      strokes.strokeTimeUs[stroke]!,
      strokes.strokeVoice[stroke]!,
      this.#levels.isAccent(stroke),
      this.#levels.isGhost(stroke),
      this.#levels.tells(stroke),
    );
  }

  #hearAgain(): void {
    this.#isStale = false;
    this.#heardUs = -Infinity;
    const { strokeCount, strokeTimeUs, strokeSetAside } = this.#strokes;
    this.#follower = new PlaceFollower(this.#plan);
    this.#follower.extendTo(this.#plan, this.#untilUs);
    const counted: number[] = [];
    for (let j = 0; j < strokeCount; j++) if (strokeSetAside[j] === 0) counted.push(j);
    counted.sort((a, b) => strokeTimeUs[a]! - strokeTimeUs[b]! || a - b);
    while (counted.length > this.#waiting.length) this.#makeRoom();
    this.#waiting.set(counted);
    this.#first = 0;
    this.#count = counted.length;
  }

  #makeRoom(): void {
    if (this.#first > 0) {
      this.#waiting.copyWithin(0, this.#first, this.#first + this.#count);
      this.#first = 0;
    } else this.#waiting = enlarge(this.#waiting, new Int32Array(2 * this.#waiting.length));
  }
}
