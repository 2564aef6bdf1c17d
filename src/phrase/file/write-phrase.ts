import { mixedNumber } from '../../time/beats';
import type { Change, Layer, Phrase, Selector } from '../model/phrase';
import type { ChangeFile, LayerFile, PhraseFile, SelectorFile } from '../model/phrase-file';
import { swingText } from '../model/swing';

/** A phrase as the text of its file, a line for each change; reading it gives the same phrase. */
export const writePhrase = (phrase: Phrase): string => phraseText(phraseFile(phrase));

/** The data of a phrase file as its text, whether or not it is a phrase already. */
export function phraseText(file: PhraseFile): string {
  const { layers, ...head } = file;
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

/** A phrase as the data of its file, without what is only a default. */
export function phraseFile(phrase: Phrase): PhraseFile {
  return {
    title: phrase.title,
    meter: phrase.meterText,
    tempoBpm: phrase.tempoBpm,
    subdivision: phrase.subdivision,
    grouping: phrase.groupingText,
    ...(phrase.cycle !== phrase.grouping.length && { cycle: phrase.cycle }),
    ...(phrase.swing && { swing: swingText(phrase.swing) }),
    layers: phrase.layers.map(layerFile),
  };
}

/** A layer as the data of its file. */
export function layerFile({ name, changes, muted }: Layer): LayerFile {
  const all = muted ?? changes;
  return {
    name,
    ...(muted && { muted: true }),
    ...(all.length > 0 && { changes: all.map(changeFile) }),
  };
}

function changeFile(change: Change): ChangeFile {
  switch (change.kind) {
    case 'set':
      return { where: selectorFile(change.where), set: { ...change.set } };
    case 'pickup':
      return { pickup: [...change.pickup] };
    case 'accentEvery': {
      const where = selectorFile(change.where);
      return {
        accentEvery: change.accentEvery,
        ...(change.from !== 1 && { from: change.from }),
        ...(Object.keys(where).length > 0 && { where }),
      };
    }
    case 'displace':
      return { displace: change.displace };
    case 'subdivision':
      return { subdivision: change.subdivision };
    case 'swing':
      return { swing: swingText(change.swing) };
    case 'add':
      return { add: [...change.add] };
  }
}

function selectorFile({ positions, nth, beats, every, not, any, ...rest }: Selector): SelectorFile {
  return {
    ...rest,
    ...(positions && { positions: [...positions] }),
    ...(nth && { nth: [...nth] }),
    ...(beats && { beats: beats.map(mixedNumber) }),
    ...(every && { every: { partials: every.partials, at: [...every.at] } }),
    ...(not && { not: selectorFile(not) }),
    ...(any && { any: any.map(selectorFile) }),
  };
}
