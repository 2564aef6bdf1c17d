import * as v from 'valibot';
import type { PhraseFile } from '../model/phrase-file';

/** What a phrase that is still being written has for certain: every key of the right kind, whatever it says. */
const draftSchema = v.object({
  title: v.string(),
  meter: v.string(),
  tempoBpm: v.number(),
  subdivision: v.number(),
  grouping: v.string(),
  cycle: v.exactOptional(v.number()),
  swing: v.exactOptional(v.string()),
  layers: v.pipe(
    v.array(
      v.object({
        name: v.string(),
        muted: v.exactOptional(v.boolean()),
        changes: v.exactOptional(v.array(v.looseObject({}))),
      }),
    ),
    v.minLength(1),
  ),
});

/**
 * A phrase file that need not be a phrase yet, to be written on; undefined when the text is something else.
 *
 * @example readDraft('{ "title": "" }') // => undefined
 */
export function readDraft(text: string): PhraseFile | undefined {
  try {
    const read = v.safeParse(draftSchema, JSON.parse(text));
    return read.success ? (read.output as unknown as PhraseFile) : undefined;
  } catch {
    return undefined;
  }
}
