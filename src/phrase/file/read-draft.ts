import * as v from 'valibot';
import { draftOfFile } from '../model/draft-file';
import type { PhraseDraft } from '../model/phrase-draft';
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
 * A draft from the text of its file, which need not be a phrase yet; undefined when the text is something else.
 *
 * @example readDraft('{ "title": "" }') // => undefined
 */
export function readDraft(text: string): PhraseDraft | undefined {
  try {
    const read = v.safeParse(draftSchema, JSON.parse(text));
    return read.success ? draftOfFile(read.output as unknown as PhraseFile) : undefined;
  } catch {
    return undefined;
  }
}
