import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { KitDecoder } from '../../src/kit/kit-decoder';
import type { MessageTrace } from '../../src/practice/inputs/message-trace';

/**
 * Plays ten strokes a second apart into a trace: snare with velocities 20 to 110, each handled 2 ms
 * after its stamp but the last, which waits for 60 ms; then a double trigger 8 ms after, the hi-hat's
 * pedal half down, and a note that no kit knows.
 */
export function playHarbourKit(trace: MessageTrace): void {
  const decoder = new KitDecoder(EDGE_AND_RIM);
  const send = (stampMs: number, delayMs: number, ...bytes: [number, number, number]) =>
    trace.add(decoder.read(stampMs * 1000, ...bytes), stampMs + delayMs);
  for (let i = 0; i < 10; i++) send(1000 * i, i === 9 ? 60 : 2, 0x99, 38, 20 + 10 * i);
  send(9008, 2, 0x99, 38, 30);
  send(9500, 1, 0xb9, 4, 63);
  send(9600, 1, 0x99, 91, 77);
}
