import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { isStruck, KitDecoder } from '../../src/kit/kit-decoder';
import { CHOKE, IGNORED, OPENING, STROKE, UNMAPPED } from '../../src/kit/kit-reader';
import { readStrokes } from '../../src/kit/read-strokes';
import { chance } from '../../src/time/chance';

const SEED = 31;

describe('a decoder', () => {
  it('says what each message is, numbers the strokes, and keeps the bytes', () => {
    const decoder = new KitDecoder(GENERAL_MIDI);
    const read = (status: number, data1: number, data2: number) => {
      const { kind, stroke } = decoder.read(5, status, data1, data2);
      return [kind, stroke, isStruck(decoder)];
    };
    expect(read(0x99, 38, 90)).toEqual([STROKE, 0, true]);
    expect(read(0x89, 38, 0)).toEqual([IGNORED, 0, false]);
    expect(read(0xb9, 4, 127)).toEqual([OPENING, 0, false]);
    expect(read(0xa9, 49, 127)).toEqual([CHOKE, 0, false]);
    expect(read(0x99, 3, 70)).toEqual([UNMAPPED, 0, true]);
    expect([decoder.pad, decoder.velocity]).toEqual([3, 70]);
    expect(read(0x99, 36, 80)).toEqual([STROKE, 1, true]);
    expect(decoder).toMatchObject({ timeUs: 5, status: 0x99, data1: 36, data2: 80 });
  });

  it(`sets aside what the whole take sets aside, seed ${SEED}`, () => {
    const { next } = chance(SEED);
    const messages = Array.from({ length: 2000 }, (_, i) => ({
      timeUs: i * 4000 + (next() % 9000),
      status: 0x99,
      data1: [38, 40, 48, 36][next() % 4]!,
      data2: 1 + (next() % 127),
    }));
    const decoder = new KitDecoder(GENERAL_MIDI);
    const why: number[] = [];
    for (const { timeUs, status, data1, data2 } of messages) {
      const { stroke, setAside, changedCount, changedStroke, changedTo } = decoder.read(
        timeUs,
        status,
        data1,
        data2,
      );
      why[stroke] = setAside;
      for (let c = 0; c < changedCount; c++) why[changedStroke[c]!] = changedTo[c]!;
    }
    const inOrder = messages
      .map((_, i) => i)
      .sort((a, b) => messages[a]!.timeUs - messages[b]!.timeUs);
    const whole = readStrokes(messages, GENERAL_MIDI).setAside;
    expect(inOrder.map((i) => why[i])).toEqual([...whole]);
    expect(whole.filter((one) => one > 0).length).toBeGreaterThan(100);
  });

  it('forgets strokes and opening at a reset, and numbers on', () => {
    const decoder = new KitDecoder(GENERAL_MIDI);
    decoder.read(0, 0xb9, 4, 127);
    decoder.read(0, 0x99, 38, 110);
    decoder.reset();
    // 10 ms after a stroke ten times as loud this is a double trigger, but for the reset.
    expect(decoder.read(10_000, 0x99, 38, 11)).toMatchObject({ stroke: 1, setAside: 0 });
    expect(decoder.openness).toBe(-1);
  });
});
