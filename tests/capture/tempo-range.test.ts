import { describe, expect, it } from 'vitest';
import { capture } from '../../src/capture/capture';
import { checkPhrase, parsePhrase } from '../../src/phrase/file/parse-phrase';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { tempoRange } from '../../src/phrase/model/tempo-range';
import { parseMeter } from '../../src/time/meter';
import { phraseOf } from '../phrase/phrase-of';
import { playRounds } from './played-rounds';
import { captureInput } from './transcribed';

const range = (meter: string, subdivision?: number) => tempoRange(parseMeter(meter)!, subdivision);
/** Two strokes to each eighth or sixteenth of a meter that counts them one by one. */
const captured = (meter: string, bpm: number) => {
  const phrase = phraseOf({ meter, tempoBpm: 100, subdivision: 2, grouping: 'R L K R L' });
  const strokes = playRounds({ phrase, layer: 1, tempoBpm: bpm, seed: 4 });
  return capture(captureInput(strokes, { clickBpm: bpm, meter }));
};

describe('how quick a phrase may be', () => {
  it('is a matter of the beat that is felt', () => {
    expect(range('4/4')).toEqual({ least: 30, most: 300 });
    expect(range('6/8')).toEqual({ least: 30, most: 300 });
    expect(range('5/8')).toEqual({ least: 30, most: 600 });
    expect(range('7/16')).toEqual({ least: 30, most: 1200 });
  });

  it('is a matter of partials in a minute too', () => {
    expect(range('4/4', 12).most).toBe(300);
    expect(range('7/8', 6).most).toBe(600);
    expect(range('7/8', 8).most).toBe(450);
  });

  // Quarter = 162 and quarter = 155, in eighths.
  it.each([
    ['5/8', 324],
    ['7/8', 310],
  ])('%s at %i eighths a minute is captured, and its file read again', (meter, bpm) => {
    const report = captured(meter, bpm);
    if (!report.ok) throw new Error(report.errors[0]!.message);
    const { phrase } = report.value;
    expect([phrase.tempoBpm, phrase.cycle]).toEqual([bpm, 5]);
    expect(parsePhrase(writePhrase(phrase)).ok).toBe(true);
  });

  it('is told with place and remedy where it is passed', () => {
    const report = captured('5/8', 601);
    expect(report.ok ? [] : report.errors).toMatchObject([
      {
        code: 'TEMPO',
        place: 'tempo',
        message: expect.stringMatching(/5\/8 has 30 to 600.*Say/) as string,
      },
    ]);
    const file = {
      title: 'Slip',
      meter: '5/8',
      subdivision: 2,
      grouping: 'R',
      layers: [{ name: 'A' }],
    };
    const checked = (tempoBpm: number, meter = '5/8') => checkPhrase({ ...file, tempoBpm, meter });
    expect([checked(600).ok, checked(300, '4/4').ok]).toEqual([true, true]);
    for (const refused of [checked(601), checked(301, '4/4')])
      expect(refused.ok ? [] : refused.errors).toMatchObject([
        {
          code: 'OUT_OF_RANGE',
          place: 'tempoBpm',
          message: expect.stringContaining('write one from 30 to') as string,
        },
      ]);
  });
});
