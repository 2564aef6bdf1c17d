import { describe, expect, it } from 'vitest';
import { GRACE_US } from '../../src/match/follower';
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

  it('that strokes came late, when no more of them come, and that it does no harm', () => {
    const { told, watch } = watched();
    watch.delivered(1000, 1000 + GRACE_US / 1000);
    watch.tick(1500);
    watch.delivered(2000, 2001 + GRACE_US / 1000);
    watch.tick(2200);
    expect(told).toEqual([]);
    watch.tick(2800);
    watch.tick(3000);
    expect(told).toEqual([
      'The computer was busy for a moment, and the lane may have halted. Your timing is not affected: each stroke counts at the time it was struck.',
    ]);
  });

  it('but that only once in a take', () => {
    const { told, watch } = watched();
    for (let i = 1; i <= 3; i++) {
      watch.delivered(i * 2000, i * 2000 + 500);
      watch.tick(i * 2000 + 1500);
    }
    expect(told).toHaveLength(1);
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
