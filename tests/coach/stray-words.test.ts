import { describe, expect, it } from 'vitest';
import {
  setAsideWords,
  unknownNoteWords,
  unmappedWords,
  wrongVoicesWords,
  wrongVoiceWords,
} from '../../src/coach/stray-words';

describe('strokes gone astray', () => {
  it('names the pair of a wrong voice', () => {
    expect(wrongVoiceWords({ written: 'ride', struck: 'crash', count: 1 })).toBe(
      'Written ride, struck crash: one time.',
    );
  });

  it('names the three commonest pairs and counts the others', () => {
    const pair = (struck: 'crash' | 'snare' | 'high tom' | 'mid tom' | 'cowbell', count: number) =>
      ({ written: 'ride', struck, count }) as const;
    const pairs = [pair('snare', 1), pair('crash', 5), pair('mid tom', 2), pair('high tom', 3)];
    expect(wrongVoicesWords(pairs)).toEqual([
      'Written ride, struck crash: five times.',
      'Written ride, struck high tom: three times.',
      'Written ride, struck mid tom: two times.',
      'Other wrong voices: one time.',
    ]);
    expect(wrongVoicesWords([pair('cowbell', 4)])).toHaveLength(1);
  });

  it('puts what was set aside down to the kit, and is silent when there was nothing', () => {
    expect(setAsideWords({ doubleTriggers: 0, crosstalk: 0 })).toEqual([]);
    expect(setAsideWords({ doubleTriggers: 13, crosstalk: 1 })).toEqual([
      "Set aside as the kit's fault and not yours: 13 double triggers and one crosstalk stroke.",
    ]);
  });

  it('tells a note that is not on the map with its strokes', () => {
    expect(unknownNoteWords({ note: 31, strokes: 1 })).toBe(
      "Note 31, struck once, is not on your kit's map.",
    );
  });

  it('lists notes that the kit does not map', () => {
    expect(unmappedWords(new Map())).toEqual([]);
    expect(unmappedWords(new Map([[58, 2]]))).toEqual([
      "Not on the kit's note map, and so not judged: note 58 (two times).",
    ]);
  });
});
