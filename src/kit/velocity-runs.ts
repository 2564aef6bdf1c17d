/**
 * Which pads send one velocity whatever is struck, as keyboards, simple triggers and modules set so do. Nothing can be
 * said of the level of such strokes. Told by the run of one velocity that a pad begins a take with: the strokes of a run
 * that has become long enough, none of those after it. So a stroke once said to have no level keeps having none, and
 * whoever strikes another velocity has levels from there on.
 *
 * Of professional drummers' strokes in ten real performances 4.4 % below 127 had the velocity of the one before on their
 * pad, on the evenest of the pads that are asked for levels 18.5 % (bass drum, 228 strokes); the longest such run is of 6
 * (Groove MIDI Dataset, Gillick et al. 2019; shared/takes, counted). At 127 there are 10 in a row, and 83 % of a pad.
 */
export class VelocityRuns {
  /** Velocity of a pad's first stroke, 0 before there is one; strokes of its first run; whether that is over. */
  readonly #velocity = new Uint8Array(128);
  readonly #length = new Uint32Array(128);
  readonly #isOver = new Uint8Array(128);
  readonly #isLongEnough = new Uint8Array(128);
  /** By velocity: whether there is a pad that sends it whatever is struck. */
  readonly #isSent = new Uint8Array(128);
  /** Pads that were seen to begin with one velocity for long enough. */
  padCount = 0;

  /** A pad's next stroke, in order of arrival: whether it belongs to the pad's first run. Allocates nothing. */
  add(pad: number, velocity: number): boolean {
    if (this.#length[pad] === 0) this.#velocity[pad] = velocity;
    if (this.#velocity[pad] !== velocity) this.#isOver[pad] = 1;
    if (this.#isOver[pad] === 1) return false;
    const length = ++this.#length[pad]!;
    if (length === longEnough(velocity)) {
      this.#isSent[velocity] = 1;
      for (let other = 0; other < 128; other++) this.#look(other, velocity);
    } else if (length === ONE_VELOCITY_LIKE_ANOTHER) this.#look(pad, velocity);
    return true;
  }

  /** Whether the strokes of a pad's first run tell no level. */
  isOfOneVelocity(pad: number): boolean {
    return this.#isLongEnough[pad] === 1;
  }

  #look(pad: number, velocity: number): void {
    if (this.#isSent[velocity] === 0 || this.#isLongEnough[pad] === 1) return;
    if (this.#velocity[pad] !== velocity || this.#isOver[pad] === 1) return;
    if (this.#length[pad]! < ONE_VELOCITY_LIKE_ANOTHER) return;
    this.#isLongEnough[pad] = 1;
    this.padCount++;
  }
}

/** Twice the longest of those runs. At 0.185 a stroke a player's first strokes make one in 0.185^11 = 1e-8 of cases. */
export const ONE_VELOCITY_FROM = 12;
/** At 127, where a hard player's strokes end up: 0.83^47 = 2e-4. */
export const ONE_VELOCITY_AT_TOP = 48;
/**
 * Where another pad is known to send this same velocity. The velocity met most often has at most 0.23 of the strokes of a
 * pad below 127 there: 0.23^6 = 1e-4.
 */
export const ONE_VELOCITY_LIKE_ANOTHER = 6;
const TOP = 127;

/**
 * How many of a pad's first strokes at a velocity, and none at another, tell that it sends no other.
 *
 * @example longEnough(100) // => 12
 */
export const longEnough = (velocity: number): number =>
  velocity === TOP ? ONE_VELOCITY_AT_TOP : ONE_VELOCITY_FROM;
