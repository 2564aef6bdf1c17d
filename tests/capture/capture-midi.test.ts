import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { captureMidi } from '../../src/capture/capture-midi';
import { takeInFile } from '../../src/capture/take-in-file';
import type { RawMessage } from '../../src/kit/raw-message';
import { readMidiFile } from '../../src/take/read-midi-file';
import { runCount } from '../run-count';

const strokeAt = (timeUs: number, data1 = 38): RawMessage => ({
  ...{ timeUs, status: 0x99, data1, data2: 64 },
});

function readBack(bytes: Uint8Array) {
  const file = readMidiFile(bytes);
  if (!file.ok) throw new Error(file.errors[0]!.message);
  return file.value;
}

describe('what was played, as a MIDI file', () => {
  it('says the tempo of the click, and its count-in where somebody struck in it', () => {
    const take = {
      clickBpm: 100,
      meter: '7/8',
      messages: [-300_000, 0, 300_000].map((us) => strokeAt(us)),
    };
    const file = readBack(captureMidi(take, 'Played at 19:20'));
    expect(file.tempos).toEqual([{ tick: 0, usPerQuarter: 1_200_000 }]);
    expect(file.meters[0]).toMatchObject({ count: 7, unit: 8 });
    expect(file.texts.map(({ text }) => text)).toContain('Count-in');
    // A count-in of seven eighths, 600 ms each; the first came half an eighth ahead of bar 1.
    expect(file.messages.map(({ timeUs }) => timeUs)).toEqual([3_900_000, 4_200_000, 4_500_000]);
  });

  it('says no tempo where nobody heard one, so that its pulse is looked for again', () => {
    const messages = [1, 2, 3, 4].map((i) => strokeAt(613_000 * i));
    const bytes = captureMidi({ clickBpm: undefined, meter: '6/8', messages });
    expect(readBack(bytes).tempos).toEqual([]);
    const taken = takeInFile(readBack(bytes));
    expect(taken.ok && taken.value).toMatchObject({ clickBpm: undefined, meter: '6/8' });
  });

  it('lawNothingPlayedIsLost: every message comes back, as long after the first', () => {
    const message = fc.record({
      timeUs: fc.integer({ min: -5_000_000, max: 300_000_000 }),
      status: fc.constantFrom(0x99, 0x89, 0xb9),
      data1: fc.nat(127),
      data2: fc.nat(127),
    });
    fc.assert(
      fc.property(
        fc.array(message, { minLength: 1, maxLength: 40 }),
        fc.option(fc.integer({ min: 30, max: 300 }), { nil: undefined }),
        fc.constantFrom('4/4', '6/8', '7/8', '3/4'),
        (unordered, clickBpm, meter) => {
          const messages = [...unordered].sort((a, b) => a.timeUs - b.timeUs);
          const back = readBack(captureMidi({ messages, clickBpm, meter })).messages;
          expect(back).toHaveLength(messages.length);
          const bytesOf = (all: readonly RawMessage[]) =>
            all.map(({ status, data1, data2 }) => `${status} ${data1} ${data2}`).sort();
          expect(bytesOf(back)).toEqual(bytesOf(messages));
          // A tick is 132 µs at 30 eighths a minute; a file's tempo is up to half a microsecond a quarter off.
          const bpm = clickBpm ?? 300;
          const quarters = (messages.at(-1)!.timeUs - messages[0]!.timeUs) * (bpm / 60e6) * 1.5;
          const apart = back.at(-1)!.timeUs - back[0]!.timeUs;
          const played = messages.at(-1)!.timeUs - messages[0]!.timeUs;
          expect(Math.abs(apart - played)).toBeLessThanOrEqual(140 + quarters / 2);
        },
      ),
      { numRuns: runCount(200) },
    );
  });
});
