import { draftFile } from '../model/draft-file';
import type { Phrase } from '../model/phrase';
import { draftOf, type PhraseDraft } from '../model/phrase-draft';
import type { LayerFile } from '../model/phrase-file';

/**
 * A phrase as the text of its file, a line for each change; reading it gives the same phrase.
 *
 * @example parsePhrase(writePhrase(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value)).value.groupingText // => 'R L K'
 */
export const writePhrase = (phrase: Phrase): string => writeDraft(draftOf(phrase));

/** The same for a draft, whether or not it is a phrase already. */
export function writeDraft(draft: PhraseDraft): string {
  const { layers, ...head } = draftFile(draft);
  const lines = Object.entries(head).map(([key, value]) => `  "${key}": ${oneLine(value)},`);
  return `{\n${lines.join('\n')}\n  "layers": [\n${layers.map(layerText).join(',\n')}\n  ]\n}\n`;
}

function layerText({ changes, ...head }: LayerFile): string {
  if (!changes) return `    ${oneLine(head)}`;
  const keys = Object.entries(head).map(([key, value]) => `      "${key}": ${oneLine(value)},\n`);
  const lines = changes.map((change) => `        ${oneLine(change)}`);
  return `    {\n${keys.join('')}      "changes": [\n${lines.join(',\n')}\n      ]\n    }`;
}

function oneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(oneLine).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const entries = Object.entries(value).map(([key, entry]) => `"${key}": ${oneLine(entry)}`);
  return entries.length > 0 ? `{ ${entries.join(', ')} }` : '{}';
}
