import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Announcer } from '../../../../src/view/screens/practise/announcer.svelte';

/** A bar of 3/4 at 30, longer than the four seconds; and one of 2/4 at 240. */
const LONG_BAR_MS = 6000;
const SHORT_BAR_MS = 500;

let announcer: Announcer;
beforeEach(() => {
  vi.useFakeTimers();
  announcer = new Announcer();
});
afterEach(() => {
  announcer.end();
  vi.useRealTimers();
});

/** Every message that was given out in `ms`, while `each` goes on every half second. */
function messagesIn(ms: number, each: (at: number) => void): string[] {
  const messages: string[] = [];
  for (let at = 0; at < ms; at += 500) {
    each(at);
    for (let passed = 0; passed < 500; passed += 50) {
      vi.advanceTimersByTime(50);
      const { message } = announcer;
      if (message !== '' && message !== messages.at(-1)) messages.push(message);
    }
  }
  return messages;
}

describe('what is read aloud', () => {
  it.each([
    [SHORT_BAR_MS, 3],
    [LONG_BAR_MS, 2],
  ])('is one message in the longer of 4 s and a bar of %i ms', (barMs, count) => {
    const messages = messagesIn(11_000, (at) => announcer.say('cycle', `Cycle ${at}.`, barMs));
    expect(messages).toHaveLength(count);
  });

  it('is the latest of its topic, and loses no other', () => {
    announcer.say('cycle', 'Cycle 1.', SHORT_BAR_MS);
    vi.advanceTimersByTime(1000);
    announcer.say('status', 'Stopped.', SHORT_BAR_MS);
    announcer.say('cycle', 'Cycle 2.', SHORT_BAR_MS);
    announcer.say('cycle', 'Cycle 3.', SHORT_BAR_MS);
    expect(announcer.message).toBe('Cycle 1.');
    vi.advanceTimersByTime(4000);
    expect(announcer.message).toBe('Stopped. Cycle 3.');
  });

  it('is nothing any more where it has come to nothing meanwhile', () => {
    announcer.say('upcoming', 'Layer 3 from bar 4.', SHORT_BAR_MS);
    announcer.say('upcoming', '', SHORT_BAR_MS);
    vi.advanceTimersByTime(5000);
    expect(announcer.message).toBe('');
  });
});
