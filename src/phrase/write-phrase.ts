import { mixedNumber } from '../time/beats';
import type { Change, Phrase, Where } from './phrase';
import type { ChangeFile, PhraseFile, WhereFile } from './phrase-file';
import { swingText } from './swing';

/** A phrase as the text of its file; reading it gives the same phrase. */
export const writePhrase = (phrase: Phrase): string =>
  `${JSON.stringify(phraseFile(phrase), undefined, 2)}\n`;

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
    layers: phrase.layers.map(({ name, changes }) =>
      changes.length > 0 ? { name, changes: changes.map(changeFile) } : { name },
    ),
  };
}

function changeFile(change: Change): ChangeFile {
  switch (change.kind) {
    case 'set':
      return { where: whereFile(change.where), set: { ...change.set } };
    case 'pickup':
      return { pickup: [...change.pickup] };
    case 'accentEvery': {
      const where = whereFile(change.where);
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

function whereFile({ positions, nth, beats, not, any, ...rest }: Where): WhereFile {
  return {
    ...rest,
    ...(positions && { positions: [...positions] }),
    ...(nth && { nth: [...nth] }),
    ...(beats && { beats: beats.map(mixedNumber) }),
    ...(not && { not: whereFile(not) }),
    ...(any && { any: any.map(whereFile) }),
  };
}
