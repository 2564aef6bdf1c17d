import { median } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { createKitReader, STROKE } from '../../src/kit/kit-reader';
import { VOICES } from '../../src/phrase/model/voice';
import { readMidiFile } from '../../src/take/read-midi-file';
import { readStrokes } from '../../src/kit/read-strokes';
import { takeOfMidiFile } from '../../src/take/take-of-midi-file';
import { parseMeter } from '../../src/time/meter';
import { answerOf } from '../cli/run-command';
import { HUMAN_TAKES, humanTake, humanTakePath, STATED } from '../take/human-takes';

const read = (name: string) => {
  const parsed = readMidiFile(humanTake(name));
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  return parsed.value;
};

describe('real playing on an electronic kit', () => {
  it('is there, ten of it', () => {
    expect(HUMAN_TAKES).toHaveLength(10);
    expect([...STATED.keys()].sort()).toEqual([...HUMAN_TAKES].sort());
  });

  it.each(HUMAN_TAKES)(
    '%s has no unmapped note, hardly a stroke set aside, and the tempo the table states',
    (name) => {
      const file = read(name);
      const { strokes, unmapped, setAside } = readStrokes(file.messages, EDGE_AND_RIM);
      expect([...unmapped]).toEqual([]);
      expect(strokes.length).toBeGreaterThan(10);
      expect([...setAside].filter((why) => why > 0).length).toBeLessThanOrEqual(1);
      const { bpm, meter } = STATED.get(name)!;
      const taken = takeOfMidiFile(file, { meter: parseMeter(meter)!, countInBars: 0 });
      if (!taken.ok) throw new Error(taken.errors[0]!.message);
      // The table counts quarters; the beat of 6/8 is a dotted quarter.
      const quarters = parseMeter(meter)!.quartersPerBeat.valueOf();
      expect(taken.value.tempos[0]!.bpm * quarters).toBeCloseTo(bpm, 2);
    },
  );

  it('reads the hi-hat by the note and the opening from controller 4 alike', () => {
    const openness: Record<string, number[]> = { 'hi-hat open': [], 'hi-hat closed': [] };
    for (const name of HUMAN_TAKES) {
      const reader = createKitReader(EDGE_AND_RIM);
      for (const { status, data1, data2 } of read(name).messages)
        if (reader.read(status, data1, data2) === STROKE && reader.openness >= 0)
          openness[VOICES[reader.voiceNumber]!]?.push(reader.openness);
    }
    expect(openness['hi-hat open']!.length).toBeGreaterThan(50);
    expect(openness['hi-hat closed']!.length).toBeGreaterThan(200);
    expect(median(openness['hi-hat open']!)).toBeGreaterThan(0.5);
    expect(median(openness['hi-hat closed']!)).toBeLessThan(0.5);
  });

  it.each(HUMAN_TAKES)('%s is judged by the assess command', async (name) => {
    const { status, stdout, stderr } = await answerOf(
      'assess',
      humanTakePath(name),
      '--phrase',
      'shared/phrases/net-mender.json',
      '--kit',
      'shared/kits/edge-and-rim.json',
      '--json',
    );
    expect([status, stderr]).toEqual([0, '']);
    const report = JSON.parse(stdout) as { unmapped: unknown[]; notes: unknown[] };
    expect(report.unmapped).toEqual([]);
    expect(report.notes.length).toBeGreaterThan(0);
  });
});
