import { turnWords } from '../phrase/exercise/answering';

/** What the program has against a finding: its advice names it, and a button starts it, in the same words. */
export type Drill =
  | { readonly kind: 'these notes' }
  | { readonly kind: 'these notes slower' }
  | { readonly kind: 'layer slower' }
  /** `name` of the limb: "left hand". */
  | { readonly kind: 'limb alone'; readonly name: string }
  /** 1-based. */
  | { readonly kind: 'other layer'; readonly layer: number }
  | { readonly kind: 'turns'; readonly cycles: number }
  /** Beats of the meter a minute, whole. */
  | { readonly kind: 'other tempo'; readonly bpm: number }
  | { readonly kind: 'rig offset' }
  | { readonly kind: 'note map' };

/**
 * What it is called, in the middle of a sentence.
 *
 * @example drillWords({ kind: 'limb alone', name: 'left hand' }) // => 'practise the left hand alone'
 */
export function drillWords(drill: Drill): string {
  switch (drill.kind) {
    case 'these notes':
    case 'these notes slower':
      return `practise ${drill.kind}`;
    case 'layer slower':
      return 'practise the layer slower';
    case 'other layer':
      return `practise layer ${drill.layer}`;
    case 'limb alone':
      return `practise the ${drill.name} alone`;
    case 'turns':
      return turnWords(drill.cycles);
    case 'other tempo':
      return `practise at ${drill.bpm}`;
    case 'rig offset':
      return "measure the rig's offset";
    case 'note map':
      return "look at the kit's note map";
  }
}
