import { boundariesOf } from '../kit/boundaries-of';
import type { Kit, LevelBoundaries } from '../kit/kit';
import { TWIN_REACH } from '../kit/twin-stroke';
import { VelocityRuns } from '../kit/velocity-runs';
import { enlarge } from '../match/enlarge';
import type { LaneFeed } from './lane-feed';

/** What the strokes so far were, in the order of arrival. */
type StrokeColumns = Pick<
  LaneFeed,
  'strokeCount' | 'strokeTimeUs' | 'strokeVoice' | 'strokeVelocity'
>;

/** What the pad of each stroke of a take says of its level, in the order of arrival. */
export class StrokeLevels {
  /** MIDI note number of each stroke's pad. */
  pad: Uint8Array;
  readonly #boundaries: readonly LevelBoundaries[];
  readonly #runs = new VelocityRuns();
  /** Per stroke, whether it belongs to the first run of its pad. */
  #inFirstRun: Uint8Array;
  readonly #strokes: StrokeColumns;
  #latestUs = -Infinity;

  constructor(kit: Kit, room: number, strokes: StrokeColumns) {
    this.#strokes = strokes;
    this.pad = new Uint8Array(room);
    this.#inFirstRun = new Uint8Array(room);
    this.#boundaries = Array.from({ length: 128 }, (_, note) => boundariesOf(kit, note));
  }

  reserve(size: number): void {
    this.pad = enlarge(this.pad, new Uint8Array(size));
    this.#inFirstRun = enlarge(this.#inFirstRun, new Uint8Array(size));
  }

  /** Takes the next stroke, of a voice by its number; whether earlier ones have lost their level by it. Live path. */
  add(timeUs: number, voice: number, pad: number, velocity: number): boolean {
    const stroke = this.#strokes.strokeCount;
    const twin = this.#twinOf(timeUs, voice, velocity);
    const pads = this.#runs.padCount;
    const isFirst = this.#runs.add(pad, velocity);
    this.pad[stroke] = twin < 0 ? pad : this.pad[twin]!;
    this.#inFirstRun[stroke] = twin < 0 ? (isFirst ? 1 : 0) : this.#inFirstRun[twin]!;
    return this.#runs.padCount > pads;
  }

  boundaries(stroke: number): LevelBoundaries {
    return this.#boundaries[this.pad[stroke]!]!;
  }

  isAccent(stroke: number): boolean {
    return this.#strokes.strokeVelocity[stroke]! >= this.boundaries(stroke).accentMin;
  }
  isGhost(stroke: number): boolean {
    return this.#strokes.strokeVelocity[stroke]! <= this.boundaries(stroke).ghostMax;
  }

  /** Whether the stroke tells its level: not on a pad that sends one velocity. */
  tells(stroke: number): boolean {
    return this.#inFirstRun[stroke] === 0 || !this.#runs.isOfOneVelocity(this.pad[stroke]!);
  }

  /** The last stroke that a new one cannot be told from, or -1. What is struck in the order of time has none. */
  #twinOf(timeUs: number, voice: number, velocity: number): number {
    if (timeUs > this.#latestUs) {
      this.#latestUs = timeUs;
      return -1;
    }
    const { strokeCount, strokeTimeUs, strokeVoice, strokeVelocity } = this.#strokes;
    for (let j = strokeCount - 1; j >= Math.max(0, strokeCount - TWIN_REACH); j--)
      if (strokeTimeUs[j] === timeUs && strokeVoice[j] === voice && strokeVelocity[j] === velocity)
        return j;
    return -1;
  }
}
