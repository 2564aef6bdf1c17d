import { boundariesOf } from '../kit/boundaries-of';
import type { Kit, LevelBoundaries } from '../kit/kit';
import { VelocityRuns } from '../kit/velocity-runs';
import { enlarge } from '../match/enlarge';

/** What the pad of each stroke of a take says of its level, in the order of arrival. */
export class StrokeLevels {
  /** MIDI note number of each stroke's pad. */
  pad: Uint8Array;
  readonly #boundaries: readonly LevelBoundaries[];
  readonly #runs = new VelocityRuns();
  /** Per stroke, whether it belongs to the first run of its pad. */
  #inFirstRun: Uint8Array;

  constructor(kit: Kit, room: number) {
    this.pad = new Uint8Array(room);
    this.#inFirstRun = new Uint8Array(room);
    this.#boundaries = Array.from({ length: 128 }, (_, note) => boundariesOf(kit, note));
  }

  reserve(size: number): void {
    this.pad = enlarge(this.pad, new Uint8Array(size));
    this.#inFirstRun = enlarge(this.#inFirstRun, new Uint8Array(size));
  }

  /**
   * Takes a stroke; whether earlier ones have lost their level by it. Live path.
   *
   * @param twin the stroke that this one cannot be told from, or -1
   */
  add(stroke: number, pad: number, velocity: number, twin: number): boolean {
    const pads = this.#runs.padCount;
    const isFirst = this.#runs.add(pad, velocity);
    this.pad[stroke] = twin < 0 ? pad : this.pad[twin]!;
    this.#inFirstRun[stroke] = twin < 0 ? (isFirst ? 1 : 0) : this.#inFirstRun[twin]!;
    return this.#runs.padCount > pads;
  }

  boundaries(stroke: number): LevelBoundaries {
    return this.#boundaries[this.pad[stroke]!]!;
  }

  isAccent(stroke: number, velocity: number): boolean {
    return velocity >= this.boundaries(stroke).accentMin;
  }
  isGhost(stroke: number, velocity: number): boolean {
    return velocity <= this.boundaries(stroke).ghostMax;
  }

  /** Whether the stroke tells its level: not on a pad that sends one velocity. */
  tells(stroke: number): boolean {
    return this.#inFirstRun[stroke] === 0 || !this.#runs.isOfOneVelocity(this.pad[stroke]!);
  }
}
