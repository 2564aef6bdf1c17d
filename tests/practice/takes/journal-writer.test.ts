import { describe, expect, it } from 'vitest';
import { JOURNAL_EVERY_US, JournalWriter } from '../../../src/practice/takes/journal-writer';

describe('what is written down while it is played', () => {
  it('is written at once, and then no sooner than its time', async () => {
    const writer = new JournalWriter();
    expect(writer.isDue(-1_600_000)).toBe(true);
    await writer.write(5, Promise.resolve());
    expect(writer.isDue(5 + JOURNAL_EVERY_US - 1)).toBe(false);
    expect(writer.isDue(5 + JOURNAL_EVERY_US)).toBe(true);
    expect(JOURNAL_EVERY_US).toBe(400_000);
  });

  it('waits for a writing that takes longer', async () => {
    const writer = new JournalWriter();
    let done: (() => void) | undefined;
    const written = writer.write(0, new Promise<void>((resolve) => (done = resolve)));
    expect(writer.isDue(10 * JOURNAL_EVERY_US)).toBe(false);
    done!();
    await written;
    expect(writer.isDue(10 * JOURNAL_EVERY_US)).toBe(true);
  });

  it('writes on after the clock was set back by an hour, once for each span of it', async () => {
    const writer = new JournalWriter();
    await writer.write(5_000_000_000, Promise.resolve());
    const backUs = 5_000_000_000 - 3_600_000_000;
    expect(writer.isDue(backUs)).toBe(true);
    await writer.write(backUs, Promise.resolve());
    expect(writer.isDue(backUs + JOURNAL_EVERY_US - 1)).toBe(false);
    expect(writer.isDue(backUs + JOURNAL_EVERY_US)).toBe(true);
  });
});
