import { describe, expect, it } from 'vitest';
import { capture } from '../../src/capture/capture';
import { takeInFile } from '../../src/capture/take-in-file';
import { inStepWith } from '../../src/capture/in-step';
import type { PlayedStroke } from '../../src/capture/played-stroke';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { chance } from '../../src/time/chance';
import { readMidiFile } from '../../src/take/read-midi-file';
import type { RawMessage } from '../../src/kit/raw-message';
import { writeMidiFile } from '../../src/take/write-midi-file';
import { beats } from '../../src/time/beats';
import { parseMeter } from '../../src/time/meter';
import { phraseOf } from '../phrase/phrase-of';
import { HUMAN_TAKES, humanTake, STATED } from '../take/human-takes';
import { playRounds } from './played-rounds';
import { transcribed } from './transcribed';

const heard = (bytes: Uint8Array) => {
  const parsed = readMidiFile(bytes);
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  const found = takeInFile(parsed.value);
  if (!found.ok) throw new Error(found.errors[0]!.message);
  return found.value;
};

describe('a file of real playing', () => {
  it('is there, ten times', () => {
    expect(HUMAN_TAKES).toHaveLength(10);
  });

  it.each(HUMAN_TAKES)(
    '%s is heard at the tempo and in the meter of the table, within one per cent',
    (name) => {
      const { bpm, meter } = STATED.get(name)!;
      const found = heard(humanTake(name));
      // The table counts quarters; the beat of 6/8 is a dotted quarter.
      const quarters = parseMeter(meter)!.quartersPerBeat.valueOf();
      expect(found.meter).toBe(meter);
      expect(found.clickBpm).toBeDefined();
      expect(Math.abs((found.clickBpm! * quarters) / bpm - 1)).toBeLessThan(0.01);
      const captured = transcribed(found.strokes, found)!;
      expect(Math.abs((captured.pattern.tempoBpm * quarters) / bpm - 1)).toBeLessThan(0.01);
    },
  );
});

describe('the tempo that a file states', () => {
  const phrase = phraseOf({ grouping: 'R+K L L R+K L R K L', layers: [{ name: 'Sticking' }] });
  const played = (tempoBpm: number) => playRounds({ phrase, layer: 1, tempoBpm, seed: 3 });
  const noteOf = (voice: string) => GENERAL_MIDI.pads.find((pad) => pad.voice === voice)!.note;
  const fileOf = (strokes: readonly PlayedStroke[], bpm: number) =>
    writeMidiFile({
      messages: strokes.map(({ timeUs, voice, velocity }): RawMessage => ({
        timeUs: Math.max(0, timeUs),
        status: 0x99,
        data1: noteOf(voice),
        data2: velocity,
      })),
      tempos: [{ fromBeat: beats(0), bpm }],
      meter: phrase.meter,
      countInBars: 0,
      title: 'Take',
    });

  it('is not believed where somebody played at another', () => {
    const found = heard(fileOf(played(97), 120));
    expect(found.clickBpm).toBeUndefined();
    const captured = capture(found);
    expect(captured.ok && captured.value.pattern.tempoBpm).toBeCloseTo(97, 0);
  });

  it('is believed where it was played to', () => {
    expect(heard(fileOf(played(97), 97)).clickBpm).toBeCloseTo(97, 3);
  });
});

describe('being in step', () => {
  it('happens by chance once in a hundred times at most, and always where it is meant', () => {
    const { share, normal } = chance(12);
    const strokes = (count: number, timeUs: (i: number) => number) =>
      Array.from({ length: count }, (_, i): PlayedStroke => ({
        timeUs: timeUs(i),
        voice: 'snare',
        velocity: 80,
      }));
    let byChance = 0;
    let meant = 0;
    for (let run = 0; run < 1000; run++) {
      if (
        inStepWith(
          strokes(20, () => share() * 10e6),
          110,
        )
      )
        byChance++;
      const beatUs = 60e6 / 110;
      const even = strokes(20, (i) => (i * beatUs) / 4 + 12_000 * normal());
      if (inStepWith(even, 110)) meant++;
    }
    expect(byChance).toBeLessThanOrEqual(10);
    expect(meant).toBe(1000);
  });
});
