import type { SheetPicture } from '../../notation/sheet/engrave-sheet';
import type { SheetLook } from '../../notation/sheet/sheet-look';
import type { PhraseDraft } from '../../phrase/model/phrase-draft';

/** A layer to be engraved. */
export interface SheetJob {
  readonly draft: PhraseDraft;
  /** 1-based. */
  readonly layer: number;
  /** Undefined for as many as it takes to come round. */
  readonly bars: number | undefined;
  readonly look: SheetLook;
}

export type SheetAnswer = { readonly picture: SheetPicture } | { readonly problem: string };
