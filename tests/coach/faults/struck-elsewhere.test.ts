import { describe, expect, it } from 'vitest';
import { struckElsewhere } from '../../../src/coach/faults/struck-elsewhere';
import type { Voice } from '../../../src/phrase/model/voice';
import type { JudgedNote } from '../../../src/score/judged-note';
import { perfectTake, strokeOn } from './perfect-take';

/** The first so many notes of a voice struck as another, of so many that there are of it. */
function texts(written: Voice, struck: Voice, times: number, of: number): string[] {
  const { judgement, evidenceIn } = perfectTake(16);
  let seen = 0;
  const notes = judgement.notes.flatMap((note): JudgedNote[] => {
    if (note.due.note.voice !== written) return [note];
    if (++seen > of) return [];
    if (seen > times) return [note];
    return [{ ...note, verdict: 'wrong voice', stroke: strokeOn(struck, note.due.timeUs, 72) }];
  });
  expect(seen).toBeGreaterThanOrEqual(of);
  return struckElsewhere(evidenceIn({ notes, extras: [] })).map(({ text }) => text);
}

describe('one voice struck for another', () => {
  it.each([
    [
      'nine of ten point at the map',
      9,
      10,
      'Nearly every hi-hat pedal arrives as hi-hat foot splash.',
    ],
    ['eight of ten do not', 8, 10, 'Hi-hat foot splash struck for hi-hat pedal, 8 times.'],
    ['eight of eight do', 8, 8, 'Nearly every hi-hat pedal arrives as hi-hat foot splash.'],
    ['seven of seven are too few', 7, 7, 'Hi-hat foot splash struck for hi-hat pedal, 7 times.'],
    ['three are told', 3, 30, 'Hi-hat foot splash struck for hi-hat pedal, 3 times.'],
  ])('%s', (_, times, of, text) => {
    expect(texts('hi-hat pedal', 'hi-hat foot splash', times, of)).toEqual([text]);
  });

  it('two are not told', () => {
    expect(texts('hi-hat pedal', 'hi-hat foot splash', 2, 30)).toEqual([]);
  });

  it('one in twenty is not told, more are', () => {
    expect(texts('snare', 'side stick', 5, 100)).toEqual([]);
    expect(texts('snare', 'side stick', 6, 100)).toEqual(['Side stick struck for snare, 6 times.']);
  });
});
