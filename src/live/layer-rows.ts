import { mean } from 'simple-statistics';
import type { Level } from '../phrase/model/level';
import type { Phrase } from '../phrase/model/phrase';
import { contrastDb } from '../score/contrast';
import { tellsLevel } from '../score/dynamics';
import { isAsWritten, isTimed, type Figures } from '../score/figures';
import type { JudgedNote } from '../score/judged-note';
import { spread } from '../score/spread';

/** What is told of one layer beside the lane. */
export interface LayerRow {
  /** 1-based. */
  readonly layer: number;
  readonly name: string;
  /** Of the notes this layer made or changed; undefined before any was due. */
  readonly figures: Pick<Figures, 'count' | 'asWritten' | 'meanMs' | 'spreadMs'> | undefined;
  /** Of its accents or ghosts against the others of the phrase, where it has only one of them. */
  readonly contrastDb: number | undefined;
}

/** A row for each layer (1-based) up to `upTo`. One pass and no trend, since it counts over whole trials after every cycle. */
export function layerRows(
  { layers }: Phrase,
  notes: readonly JudgedNote[],
  upTo: number,
): LayerRow[] {
  const all = new Tally();
  const tallies = layers.slice(0, upTo).map(() => new Tally());
  for (const note of notes) {
    all.add(note);
    for (const layer of note.due.note.layers) tallies[layer - 1]?.add(note);
  }
  return tallies.map((own, i) => ({
    layer: i + 1,
    name: layers[i]!.name,
    figures: own.figures,
    contrastDb: own.contrastDb(all),
  }));
}

class Tally {
  #count = 0;
  #right = 0;
  readonly #offsetsUs: number[] = [];
  readonly #written = { ghost: false, tap: false, accent: false };
  readonly #velocities: Readonly<Record<Level, number[]>> = { ghost: [], tap: [], accent: [] };

  add(note: JudgedNote): void {
    const { due, stroke, offsetUs } = note;
    const { level } = due.note;
    this.#count++;
    this.#written[level] = true;
    if (isAsWritten(note)) this.#right++;
    if (!isTimed(note)) return;
    if (offsetUs !== undefined) this.#offsetsUs.push(offsetUs);
    if (stroke && tellsLevel(note)) this.#velocities[level].push(stroke.velocity);
  }

  get figures(): LayerRow['figures'] {
    if (this.#count === 0) return undefined;
    const offsets = this.#offsetsUs;
    const spreadUs = spread(offsets);
    return {
      count: this.#count,
      asWritten: this.#right / this.#count,
      meanMs: offsets.length > 0 ? mean(offsets) / 1000 : undefined,
      spreadMs: spreadUs === undefined ? undefined : spreadUs / 1000,
    };
  }

  contrastDb(all: Tally): number | undefined {
    const { accent, ghost } = this.#written;
    if (!accent && !ghost) return undefined;
    return contrastDb(
      (accent ? this : all).#velocities.accent,
      (ghost ? this : all).#velocities.ghost,
    );
  }
}
