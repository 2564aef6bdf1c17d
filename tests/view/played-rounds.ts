import type { StubParts } from './stub-parts';

/** Sixteenths at 120 on the edge-and-rim kit: an accent on the floor tom, ghosts around a tap, the bass drum. */
const OARS = [
  [43, 112],
  [38, 28],
  [38, 74],
  [38, 30],
  [36, 80],
] as const;
const PARTIAL_MS = 125;

/** Plays a cycle of five so many times round to the click, and stops unless told to play on. */
export async function playFiveOars(
  { capturing, inputs }: StubParts,
  rounds: number,
  then: 'stop' | 'still playing' = 'stop',
): Promise<void> {
  capturing.choose({ way: 'to the click', tempoBpm: 120, meter: '4/4', countInBars: 1 });
  await capturing.start();
  const bar1Ms = capturing.hand.nowMs + 600 + 2000;
  for (let i = 0; i < rounds * OARS.length; i++) {
    const [note, velocity] = OARS[i % OARS.length]!;
    const dueMs = bar1Ms + i * PARTIAL_MS;
    capturing.pass(dueMs - capturing.hand.nowMs);
    inputs.listener!(dueMs + ((i * 7) % 11) - 5, 0x99, note, velocity);
  }
  if (then === 'stop') capturing.stop();
}
