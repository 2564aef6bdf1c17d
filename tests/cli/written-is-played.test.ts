import { describe, expect, it } from 'vitest';
import { assessFile } from '../../src/cli/assess-input';
import { midiOfPhrase } from '../../src/exchange/midi-of-phrase';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { readMidiFile } from '../../src/take/read-midi-file';
import { libraryPhrases } from '../phrase/library-phrases';

const asked = { layer: undefined, countInBars: undefined, tempoBpm: undefined };

/** Half a tick of 5040 at 30 quarters a minute, and what is rounded beside it, µs. */
const MOST_OFF_US = 200;

describe('a phrase written as a MIDI file', () => {
  it.each(libraryPhrases())(
    'lawWrittenIsInTime: $name, its layers in turn, is judged in time and as written',
    ({ text }) => {
      const parsed = parsePhrase(text);
      if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
      const phrase = parsed.value;
      const layers = phrase.layers.map((_, i) => i + 1);
      const file = readMidiFile(midiOfPhrase(phrase, { layers }));
      if (!file.ok) throw new Error(file.errors[0]!.message);
      const { judgement, plan } = assessFile({
        ...{ takeName: 'a file', file: file.value, phrase, windows: {}, kit: undefined },
        ...asked,
      });
      expect(plan.passages.map(({ layer }) => layer)).toEqual(layers);
      const faults = judgement.notes.filter(
        ({ verdict, levelVerdict, offsetUs }) =>
          verdict !== 'in time' ||
          (levelVerdict ?? 'as written') !== 'as written' ||
          Math.abs(offsetUs ?? Infinity) > MOST_OFF_US,
      );
      expect(
        faults.map(({ due, verdict, levelVerdict, offsetUs }) => [
          ...[due.layer, due.note.bar, due.note.position, due.note.voice],
          ...[verdict, levelVerdict, offsetUs],
        ]),
      ).toEqual([]);
      expect(judgement.extras).toEqual([]);
      expect(new Set(judgement.notes.map(({ due }) => due.layer)).size).toBe(layers.length);
    },
  );
});
