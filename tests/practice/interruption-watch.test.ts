import { describe, expect, it } from 'vitest';
import { InterruptionWatch } from '../../src/practice/interruption-watch';

function watched() {
  const told: string[] = [];
  const state: { visibilityState: DocumentVisibilityState } = { visibilityState: 'visible' };
  const page = Object.assign(new EventTarget(), state);
  const place = { bar: 1 };
  const watch = new InterruptionWatch({
    bar: () => place.bar,
    tell: (sentence) => told.push(sentence),
    page: page,
  });
  const see = (state: DocumentVisibilityState) => {
    page.visibilityState = state;
    page.dispatchEvent(new Event('visibilitychange'));
  };
  return { told, watch, place, see };
}

describe('what interrupts a take is told once it is over', () => {
  it('from which bar to which the page was hidden', () => {
    const { told, place, see } = watched();
    see('hidden');
    place.bar = 4;
    see('visible');
    see('visible');
    expect(told).toEqual([
      'The page was hidden from bar 1 to bar 4. What was struck meanwhile is kept and judged.',
    ]);
  });

  it('when the sound was paused, the count-in included', () => {
    const { told, place, watch } = watched();
    place.bar = 0;
    watch.sound('suspended');
    watch.sound('failed');
    place.bar = 2;
    watch.sound('running');
    watch.sound('running');
    expect(told).toEqual([
      'The sound was paused from the count-in to bar 2. The take went on, and its strokes are kept.',
    ]);
  });

  it('that strokes came late, when no more of them come', () => {
    const { told, watch } = watched();
    watch.delivered(1000, 1002);
    watch.tick(1100);
    for (let i = 0; i < 5; i++) watch.delivered(2000 + 100 * i, 2500);
    watch.tick(2600);
    expect(told).toEqual([]);
    watch.tick(2900);
    watch.tick(3000);
    // 500, 400, 300 and 200 ms late; the one 100 ms late came within the grace for late delivery.
    expect(told).toEqual([
      'The page stood still: 4 messages came up to 0.5 s late. Each counts at the time it was struck.',
    ]);
  });

  it('nothing of late strokes while the page is hidden, nor after the end', () => {
    const { told, watch, see } = watched();
    see('hidden');
    watch.delivered(0, 900);
    watch.tick(2000);
    watch.end();
    see('visible');
    expect(told).toEqual([]);
  });
});
