import type { Change, Layer, Phrase } from './phrase';
import { swingText } from './swing';

/**
 * A phrase while it is written, as plain data: every key of the right kind, whatever it says. `checkDraft` makes a
 * phrase of it, or says what is wrong.
 */
export interface PhraseDraft {
  readonly title: string;
  readonly meter: string;
  /** Beats per minute. */
  readonly tempoBpm: number;
  /** Partials per beat, before any layer changes it. */
  readonly subdivision: number;
  readonly grouping: string;
  /** Partials; the grouping's length unless given. */
  readonly cycle?: number;
  /** Long part to short part, such as "2:1". */
  readonly swing?: string;
  readonly layers: readonly LayerDraft[];
}

export interface LayerDraft {
  readonly name: string;
  /** A muted layer keeps its changes and lays none of them on. */
  readonly muted?: true;
  readonly changes: readonly Change[];
}

/** A phrase as it is written, without what is only a default. */
export function draftOf(phrase: Phrase): PhraseDraft {
  const { title, meterText, tempoBpm, subdivision, groupingText, grouping, cycle, swing } = phrase;
  return {
    title,
    meter: meterText,
    tempoBpm,
    subdivision,
    grouping: groupingText,
    ...(cycle !== grouping.length && { cycle }),
    ...(swing && { swing: swingText(swing) }),
    layers: phrase.layers.map(layerDraft),
  };
}

export const layerDraft = ({ name, changes, muted }: Layer): LayerDraft =>
  muted ? { name, muted: true, changes: muted } : { name, changes };

/** Whether two drafts say the same, word for word. */
export function isSameDraft(a: PhraseDraft, b: PhraseDraft): boolean {
  if (a === b) return true;
  const { layers, ...head } = a;
  const { layers: others, ...otherHead } = b;
  return (
    layers.length === others.length &&
    layers.every((layer, i) => layer === others[i] || isSame(layer, others[i])) &&
    isSame(head, otherHead)
  );
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
