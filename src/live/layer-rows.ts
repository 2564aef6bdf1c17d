import { mean } from 'simple-statistics';
import type { Phrase } from '../phrase/model/phrase';
import { contrastOfCounts, velocityCounts } from '../score/contrast';
import { tellsLevel } from '../score/dynamics';
import { isAsWritten, isTimed, type Figures } from '../score/figures';
import type { JudgedNote } from '../score/judged-note';
import { spread } from '../score/statistics/spread';

/** What is told of one layer beside the lane. */
export interface LayerRow {
  /** 1-based. */
  readonly layer: number;
  readonly name: string;
  /** Of the notes this layer made or changed; undefined before any was due. */
  readonly figures: Pick<Figures, 'count' | 'asWritten' | 'meanMs' | 'spreadMs'> | undefined;
  readonly contrastDb: number | undefined;
  /** What its accents or ghosts are compared with, where it has only one of them: all that there are. */
  readonly against: 'ghosts' | 'accents' | undefined;
}

/** What the rows of a trial's layers are told from, note by note. No trend, since it is counted after every cycle. */
export class LayerTallies {
  readonly #all: Tally;
  /** By layer, 1-based; a layer before its first note has none. */
  readonly #layers: Map<number, Tally>;

  constructor(all = new Tally(), layers = new Map<number, Tally>()) {
    this.#all = all;
    this.#layers = layers;
  }

  add(note: JudgedNote): void {
    this.#all.add(note);
    for (const layer of note.due.note.layers) {
      const own = this.#layers.get(layer);
      if (own) own.add(note);
      else this.#layers.set(layer, new Tally().add(note));
    }
  }

  /** A copy that goes on by itself. */
  fork(): LayerTallies {
    const layers = [...this.#layers].map(([layer, own]) => [layer, own.fork()] as const);
    return new LayerTallies(this.#all.fork(), new Map(layers));
  }

  /** A row for each layer (1-based) up to `upTo`. */
  rows({ layers }: Phrase, upTo: number): LayerRow[] {
    return layers.slice(0, upTo).map(({ name }, i) => {
      const own = this.#layers.get(i + 1);
      return {
        layer: i + 1,
        name,
        figures: own?.figures,
        ...(own?.contrast(this.#all) ?? NO_CONTRAST),
      };
    });
  }
}

const NO_CONTRAST = { contrastDb: undefined, against: undefined };

class Tally {
  #count = 0;
  #right = 0;
  #hasGhosts = false;
  #hasAccents = false;
  #offsetsUs: number[] = [];
  #ghosts = velocityCounts([]);
  #accents = velocityCounts([]);

  add(note: JudgedNote): this {
    const { due, stroke, offsetUs } = note;
    const { level } = due.note;
    this.#count++;
    if (level === 'ghost') this.#hasGhosts = true;
    if (level === 'accent') this.#hasAccents = true;
    if (isAsWritten(note)) this.#right++;
    if (isTimed(note) && offsetUs !== undefined) this.#offsetsUs.push(offsetUs);
    if (!stroke || !tellsLevel(note)) return this;
    if (level === 'ghost') this.#ghosts[stroke.velocity]!++;
    if (level === 'accent') this.#accents[stroke.velocity]!++;
    return this;
  }

  fork(): Tally {
    const other = new Tally();
    other.#count = this.#count;
    other.#right = this.#right;
    other.#hasGhosts = this.#hasGhosts;
    other.#hasAccents = this.#hasAccents;
    other.#offsetsUs = [...this.#offsetsUs];
    other.#ghosts = this.#ghosts.slice();
    other.#accents = this.#accents.slice();
    return other;
  }

  get figures(): LayerRow['figures'] {
    const offsets = this.#offsetsUs;
    const spreadUs = spread(offsets);
    return {
      count: this.#count,
      asWritten: this.#right / this.#count,
      meanMs: offsets.length > 0 ? mean(offsets) / 1000 : undefined,
      spreadMs: spreadUs === undefined ? undefined : spreadUs / 1000,
    };
  }

  contrast(all: Tally): Pick<LayerRow, 'contrastDb' | 'against'> {
    if (!this.#hasAccents && !this.#hasGhosts) return NO_CONTRAST;
    const accents = (this.#hasAccents ? this : all).#accents;
    const ghosts = (this.#hasGhosts ? this : all).#ghosts;
    const contrastDb = contrastOfCounts(accents, ghosts);
    if (contrastDb === undefined || (this.#hasAccents && this.#hasGhosts))
      return { contrastDb, against: undefined };
    return { contrastDb, against: this.#hasAccents ? 'ghosts' : 'accents' };
  }
}
