import { describe, expect, it } from 'vitest';
import { phrasesTakenIn, type PhraseOutcome } from '../../../src/practice/files/outcome-words';

const outcome = (title: string, how: PhraseOutcome['how'], problem?: string): PhraseOutcome => ({
  title,
  how,
  problem,
});

describe('what became of phrases that were opened', () => {
  it.each<[readonly PhraseOutcome[], string]>([
    [[outcome('Ebb', 'kept')], 'Ebb is among your phrases now.'],
    [[outcome('Ebb', 'replaced')], 'Ebb is replaced.'],
    [
      [outcome('Ebb', 'kept'), outcome('Flood', 'left'), outcome('Neap', 'kept')],
      'Ebb and Neap are among your phrases now. Flood was left.',
    ],
    [
      ['a', 'b', 'c', 'd', 'e'].map((title) => outcome(title, 'kept')),
      'a, b, c, d and e are among your phrases now.',
    ],
    [
      ['a', 'b', 'c', 'd', 'e', 'f'].map((title) => outcome(title, 'here')),
      '6 phrases were here already.',
    ],
    [
      [outcome('Ebb', 'kept', 'The disk is full.')],
      'Ebb is among your phrases now. The disk is full.',
    ],
  ])('%j', (outcomes, words) => {
    expect(phrasesTakenIn(outcomes)).toBe(words);
  });
});
