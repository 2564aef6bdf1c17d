import type { PhraseDraft } from '../model/phrase-draft';

/** What stands at the head of a draft; undefined takes a key away. */
export interface Head {
  readonly title?: string;
  readonly meter?: string;
  readonly tempoBpm?: number;
  readonly subdivision?: number;
  readonly grouping?: string;
  readonly cycle?: number | undefined;
  readonly swing?: string | undefined;
}

/**
 * The draft with some of its head written anew, in the usual order of keys. Nothing is checked.
 *
 * @example editHead({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R', cycle: 3, layers: [] }, { cycle: undefined }).cycle // => undefined
 */
export function editHead(draft: PhraseDraft, head: Head): PhraseDraft {
  const { title, meter, tempoBpm, subdivision, grouping, cycle, swing } = { ...draft, ...head };
  return {
    title,
    meter,
    tempoBpm,
    subdivision,
    grouping,
    ...(cycle !== undefined && { cycle }),
    ...(swing !== undefined && { swing }),
    layers: draft.layers,
  };
}
