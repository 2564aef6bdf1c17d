import type { SheetPicture } from '../../notation/sheet/engrave-sheet';
import type { SheetLook } from '../../notation/sheet/sheet-look';
import type { Phrase } from '../../phrase/model/phrase';
import { draftOf } from '../../phrase/model/phrase-draft';
import { SheetFailure, type SheetThread } from './sheet-thread';

/** Layers (1-based) of a phrase on paper. */
export interface SheetRequest {
  readonly phrase: Phrase;
  readonly layers: readonly number[];
  readonly bars: number | undefined;
  readonly look: SheetLook;
}

/** A sheet while it is drawn, layer by layer. */
export class SheetDrawing {
  readonly #thread: SheetThread;
  #pictures: readonly SheetPicture[] = $state.raw([]);
  #problem: string | undefined = $state();
  #layer: number | undefined = $state();
  /** The request that counts; an older one that is still on its way is not shown. */
  #latest: SheetRequest | undefined;

  constructor(thread: SheetThread) {
    this.#thread = thread;
  }

  get pictures(): readonly SheetPicture[] {
    return this.#pictures;
  }
  /** Why there is no sheet, if so. */
  get problem(): string | undefined {
    return this.#problem;
  }
  /** The layer that is engraved, 1-based; undefined when nothing is. */
  get layer(): number | undefined {
    return this.#layer;
  }
  get isDrawing(): boolean {
    return this.#layer !== undefined;
  }

  /** Draws another sheet in place of what there is; what was there stays until its first layer has come. */
  async draw(request: SheetRequest): Promise<void> {
    const isBusy = this.isDrawing;
    this.#latest = request;
    this.#problem = undefined;
    if (!isBusy) await this.#drawLatest();
  }

  /** One request after the other: the thread answers one question at a time. */
  async #drawLatest(): Promise<void> {
    const request = this.#latest;
    if (!request) return void (this.#layer = undefined);
    const drawn: SheetPicture[] = [];
    try {
      for (const layer of request.layers) {
        this.#layer = layer;
        const { bars, look } = request;
        const picture = await this.#thread.engrave({
          draft: draftOf(request.phrase),
          layer,
          bars,
          look,
        });
        if (request !== this.#latest) return await this.#drawLatest();
        drawn.push(picture);
        this.#pictures = [...drawn];
      }
    } catch (error) {
      if (request !== this.#latest) return await this.#drawLatest();
      this.#pictures = [];
      this.#problem = error instanceof SheetFailure ? error.message : String(error);
    }
    this.#layer = undefined;
  }

  /** Nobody looks at it any more: what is on its way is not shown, and what comes after it is not asked for. */
  close(): void {
    this.#latest = undefined;
    if (this.isDrawing) this.#thread.end();
  }
}
