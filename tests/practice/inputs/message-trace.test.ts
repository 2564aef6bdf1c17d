import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import { KitDecoder } from '../../../src/kit/kit-decoder';
import { MessageTrace, TRACE_ROOM } from '../../../src/practice/inputs/message-trace';
import { voiceNumber } from '../../../src/phrase/model/voice';

function traced() {
  const trace = new MessageTrace();
  const decoder = new KitDecoder(GENERAL_MIDI);
  const send = (stampMs: number, handledMs: number, ...bytes: [number, number, number]) =>
    trace.add(decoder.read(stampMs * 1000, ...bytes), handledMs);
  return { trace, send };
}

describe('the trace of the last messages', () => {
  it('tells what each was taken for, with its own time and when it was handled', () => {
    const { trace, send } = traced();
    send(100, 101.5, 0xb9, 4, 127);
    send(110, 111, 0x99, 38, 90);
    send(120, 125, 0x99, 3, 60);
    expect(trace.count).toBe(3);
    expect([...trace.voice.subarray(0, 3)]).toEqual([-1, voiceNumber('snare'), -1]);
    expect([...trace.handledMs.subarray(0, 3)]).toEqual([101.5, 111, 125]);
    // Controller 4 at 127 means a closed hi-hat (General MIDI kit file).
    expect(trace.openness[1]).toBe(0);
  });

  it('marks what the kit sends too much, also on a stroke that came before', () => {
    const { trace, send } = traced();
    send(1000, 1000, 0x99, 49, 8);
    send(1002, 1002, 0x99, 38, 120);
    send(1012, 1012, 0x99, 38, 20);
    expect([...trace.setAside.subarray(0, 3)]).toEqual([2, 0, 1]);
  });

  it('keeps the last ones only, and begins anew when cleared', () => {
    const { trace, send } = traced();
    for (let i = 0; i < TRACE_ROOM + 3; i++) send(i * 100, i * 100, 0x99, 38, 1 + (i % 127));
    expect(trace.first).toBe(3);
    expect(trace.stampMs[trace.place(3)]).toBe(300);
    expect(trace.stampMs[trace.place(TRACE_ROOM + 2)]).toBe((TRACE_ROOM + 2) * 100);
    trace.clear();
    expect(trace.first).toBe(trace.count);
  });
});
