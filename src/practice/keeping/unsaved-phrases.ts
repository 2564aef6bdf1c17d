import { readDraft } from '../../phrase/file/read-draft';
import type { RecordEntry } from '../../store/backup/backup-entry';
import { textBeside } from '../../store/backup/text-beside';
import { ownTextRecord } from '../../store/own-text-store';
import type { OwnText } from '../../store/tables';
import type { UnsavedEdit } from '../compose/unsaved-edits';

/**
 * Edits that the database has not confirmed yet, as the phrases they are going to be: each in the place of what it was
 * made of, or beside what another tab has made of that.
 *
 * @param stored own phrases as they stand in the database
 * @param at ISO 8601
 */
export function unsavedPhrases(
  edits: readonly UnsavedEdit[],
  stored: readonly OwnText[],
  at: string,
): RecordEntry[] {
  const titles = stored.map(({ title }) => title);
  const here = new Map(stored.map((record) => [record.id, record.text]));
  return edits.flatMap(({ id, text, base }) => {
    const draft = readDraft(text);
    const before = here.get(id);
    if (!draft || before === text) return [];
    const { title } = draft;
    const entry = { table: 'phrases', record: ownTextRecord({ id, title, text }, at) } as const;
    if (before === undefined || base === undefined || before === base) {
      here.set(id, text);
      return [entry];
    }
    const beside = textBeside(entry, titles);
    titles.push(beside.record.title);
    return [beside];
  });
}
