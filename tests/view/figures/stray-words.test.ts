import { describe, expect, it } from 'vitest';
import {
  setAsideWords,
  unmappedWords,
  wrongVoiceWords,
} from '../../../src/view/figures/stray-words';

describe('strokes gone astray', () => {
  it('names the pair of a wrong voice', () => {
    expect(wrongVoiceWords({ written: 'ride', struck: 'crash', count: 1 })).toBe(
      'Written ride, struck crash: one time.',
    );
  });

  it('puts what was set aside down to the kit, and is silent when there was nothing', () => {
    expect(setAsideWords({ doubleTriggers: 0, crosstalk: 0 })).toEqual([]);
    expect(setAsideWords({ doubleTriggers: 13, crosstalk: 1 })).toEqual([
      "Set aside as the kit's fault and not yours: 13 double triggers and one crosstalk stroke.",
    ]);
  });

  it('lists notes that the kit does not map', () => {
    expect(unmappedWords(new Map())).toEqual([]);
    expect(unmappedWords(new Map([[58, 2]]))).toEqual([
      "Not on the kit's note map, and so not judged: note 58 (two times).",
    ]);
  });
});
