import { describe, expect, it } from 'vitest';
import { parseMeter } from '../../../src/time/meter';
import { beatWord, tempoText } from '../../../src/phrase/model/beat-word';

// What a metronome mark counts: the beat the meter is felt in (common practice, no source). M
describe('what the tempo counts', () => {
  it.each([
    ['4/4', undefined],
    ['3/4', undefined],
    ['7/8', 'eighths'],
    ['3/8', 'eighths'],
    ['6/8', 'dotted quarters'],
    ['12/8', 'dotted quarters'],
    ['9/16', 'dotted eighths'],
    ['5/16', 'sixteenths'],
  ])('%s: %s', (meter, word) => {
    expect(beatWord(parseMeter(meter)!)).toBe(word);
  });

  it('is silent about quarters', () => {
    expect(tempoText(88, parseMeter('4/4')!)).toBe('88 bpm');
    expect(tempoText(60, parseMeter('6/8')!)).toBe('60 bpm in dotted quarters');
  });
});
