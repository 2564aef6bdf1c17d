/** How far the player's place follows one stroke, and how far the player's tempo does. Chosen by simulation: 3 % off the tempo claims no slip. */
const PLACE_GAIN = 0.15;
const TEMPO_GAIN = 0.015;
/** As many strokes as the count-in is worth: the gains begin as those of a line through so many. Chosen by the same simulation. */
const BEFORE = 8;
/** A tempo farther off than this is not followed, partials a partial. Chosen, not measured. */
const MOST_OFF = 0.08;
/** After so many partials without a stroke the player's tempo says no longer where the next one is due. Chosen, not measured. */
const FAR = 8;
/** From here on the player is nearer to another partial of the click: half, and something against going to and fro. Chosen, not measured. */
const CARRIED = 0.6;
/** Whoever stays within this for so many partials is with the click again, whatever the place. Chosen by simulation: 0.3 % off the tempo is not, with strokes that go together by 0.7 and scatter by 12 ms. */
const STEADY_WITHIN = 0.12;
const STEADY_PARTIALS = 96;

/**
 * Where the partials of a player are, beside those of the click: an alpha-beta filter (Kalata, IEEE Trans. AES-20, 1984)
 * over the strokes' offsets, so that whoever is gradually carried away by another tempo keeps the place, and only a leap
 * loses it. Lengths are in partials.
 */
export class PlayerGrid {
  #place = 0;
  #tempo = 0;
  #partial = 0;
  #strokes = BEFORE;
  #isCarried = false;
  #steadyPlace = 0;
  #steadyFrom = 0;

  reset(partial: number): void {
    this.#place = this.#tempo = this.#steadyPlace = 0;
    this.#partial = this.#steadyFrom = partial;
    this.#isCarried = false;
    this.#strokes = BEFORE;
  }

  /** How far behind the click this partial is played. */
  offsetAt(partial: number): number {
    const ahead = partial - this.#partial;
    return this.#place + this.#tempo * (ahead > FAR ? FAR : ahead);
  }

  /**
   * A stroke on a partial, so far behind the click. Answers by how many partials the player has been carried over to
   * another partial of the click: 1, -1 or, nearly always, 0.
   */
  follow(partial: number, offset: number): number {
    const from = partial - this.#partial;
    const expected = this.offsetAt(partial);
    const error = offset - expected;
    const n = ++this.#strokes;
    const placeGain = Math.max(PLACE_GAIN, (2 * (2 * n - 1)) / (n * (n + 1)));
    const tempoGain = Math.max(TEMPO_GAIN, 6 / (n * (n + 1)));
    this.#place = expected + placeGain * error;
    const tempo = this.#tempo + (tempoGain * error) / (from > 1 ? from : 1);
    this.#tempo = tempo > MOST_OFF ? MOST_OFF : tempo < -MOST_OFF ? -MOST_OFF : tempo;
    const over = this.#place > CARRIED ? 1 : this.#place < -CARRIED ? -1 : 0;
    this.#place -= over;
    this.#partial = partial + over;
    if (over !== 0) this.#isCarried = true;
    if (over !== 0 || Math.abs(this.#place - this.#steadyPlace) > STEADY_WITHIN) {
      this.#steadyPlace = this.#place;
      this.#steadyFrom = this.#partial;
    } else if (this.#partial - this.#steadyFrom >= STEADY_PARTIALS) this.#isCarried = false;
    return over;
  }

  /** Whether the player was carried away by another tempo and has not settled yet: where that ends is not known. */
  get isCarried(): boolean {
    return this.#isCarried;
  }
}
