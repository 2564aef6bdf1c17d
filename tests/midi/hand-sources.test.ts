import { describe, expect, it } from 'vitest';
import { KEY_STROKES } from '../../src/midi/key-strokes';
import { createKeyboardSource } from '../../src/midi/keyboard-source';
import { createPadSource, touchVelocity } from '../../src/midi/pad-source';

/** A page that hands on whatever key it is told. */
function fakePage() {
  const listeners = new Set<(event: KeyboardEvent) => void>();
  let prevented = 0;
  return {
    page: {
      addEventListener: (_: 'keydown', listener: (event: KeyboardEvent) => void) =>
        void listeners.add(listener),
      removeEventListener: (_: 'keydown', listener: (event: KeyboardEvent) => void) =>
        void listeners.delete(listener),
    },
    press(code: string, more: Record<string, unknown> = {}) {
      const event = { code, timeStamp: 77.5, preventDefault: () => prevented++, ...more };
      for (const listener of listeners) listener(event as unknown as KeyboardEvent);
    },
    get prevented() {
      return prevented;
    },
  };
}
/** An element that answers `closest` for its own tag only. */
const element = (tag: string) => ({
  closest: (selector: string) => (selector.split(', ').includes(tag) ? {} : null),
});

function drummed() {
  const page = fakePage();
  const source = createKeyboardSource(page.page);
  const heard: number[][] = [];
  source.start((...message) => heard.push(message));
  return { page, source, heard };
}

describe('createKeyboardSource', () => {
  it("strikes with the key's own time: tap, shift for accent, the row above for ghost", () => {
    const { page, heard } = drummed();
    page.press('KeyF');
    page.press('KeyF', { shiftKey: true });
    page.press('KeyR');
    page.press('Space');
    expect(heard).toEqual([
      [77.5, 0x99, 38, 72],
      [77.5, 0x99, 38, 112],
      [77.5, 0x99, 38, 28],
      [77.5, 0x99, 36, 72],
    ]);
    expect(page.prevented).toBe(4);
  });

  it('leaves held keys, keys of the browser and unknown keys alone', () => {
    const { page, heard } = drummed();
    page.press('KeyF', { repeat: true });
    for (const modifier of ['ctrlKey', 'altKey', 'metaKey'])
      page.press('KeyF', { [modifier]: true });
    page.press('F5');
    expect(heard).toEqual([]);
    expect(page.prevented).toBe(0);
  });

  it('does not drum into fields, nor press buttons with the bass drum', () => {
    const { page, heard } = drummed();
    page.press('KeyF', { target: element('input') });
    page.press('Space', { target: element('textarea') });
    page.press('Space', { target: element('button') });
    expect(heard).toEqual([]);
    page.press('KeyF', { target: element('button') });
    expect(heard).toHaveLength(1);
  });

  it('is silent after a stop and strikes once after two starts', () => {
    const { page, source, heard } = drummed();
    source.start((...message) => heard.push(message));
    page.press('KeyJ');
    source.stop();
    page.press('KeyJ');
    expect(heard).toHaveLength(1);
  });

  it('has every key once, and a tap and a ghost for both feet', () => {
    const voices = [...KEY_STROKES.values()];
    expect(KEY_STROKES.size).toBe(24);
    for (const voice of ['bass drum', 'hi-hat pedal'])
      for (const level of ['tap', 'ghost']) expect(voices).toContainEqual({ voice, level });
  });
});

describe('createPadSource', () => {
  it('strikes with the time and velocity of the touch', () => {
    const source = createPadSource();
    const heard: number[][] = [];
    source.touch(1, 'snare', 9);
    source.start((...message) => heard.push(message));
    source.touch(2, 'hi-hat pedal', 90);
    source.stop();
    source.touch(3, 'snare', 9);
    expect(heard).toEqual([[2, 0x99, 44, 90]]);
  });

  it.each([
    // pressure, distance from the middle, velocity
    [0.25, 1, 32],
    [0.001, 0, 1],
    [0.5, 0, 112],
    [0, 0.4, 112],
    [1, 0.41, 72],
    [0.5, 0.75, 72],
    [0.5, 0.76, 28],
  ])('pressure %f at %f of the radius has velocity %i', (pressure, distance, velocity) => {
    expect(touchVelocity(pressure, distance)).toBe(velocity);
  });
});
