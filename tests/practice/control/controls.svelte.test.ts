import { flushSync } from 'svelte';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { CommandControl } from '../../../src/control/control';
import { ControlRecogniser } from '../../../src/control/control-recogniser';
import { EDGE_AND_RIM } from '../../../src/kit/built-in-kits';
import { KitDecoder } from '../../../src/kit/kit-decoder';
import { Controls } from '../../../src/practice/control/controls.svelte';
import { FIRST_CHOICES } from '../../../src/practice/choices';
import type { MessageTap } from '../../../src/practice/inputs/inputs.svelte';
import { SettingsStore } from '../../../src/store/settings-store';

const COWBELL = 56;
const KEY: CommandControl = { command: 'faster', control: { kind: 'key', key: 'q' } };
const PAD: CommandControl = { command: 'faster', control: { kind: 'pad', note: COWBELL } };
const SWITCH: CommandControl = {
  command: 'faster',
  control: { kind: 'switch', sends: 'program', channel: 1, number: 5 },
};

/** Controls of somebody on Practise with the kit, and what strikes it. */
function rig() {
  const taps: MessageTap[] = [];
  const decoder = new KitDecoder(EDGE_AND_RIM);
  const controls = new Controls({
    settings: new SettingsStore(null),
    session: {
      status: 'idle',
      choices: FIRST_CHOICES,
      choose: () => undefined,
      start: () => Promise.resolve(),
      stop: () => Promise.resolve(),
      phrase: undefined,
      target: undefined,
      placeHelp: undefined,
    },
    inputs: {
      player: 'kit',
      playedKit: EDGE_AND_RIM,
      monitor: { leaveOut: () => undefined } as never,
      tap(tap) {
        taps.push(tap);
        return () => undefined;
      },
    },
    isOnPractise: () => true,
  });
  flushSync();
  const strike = (atMs: number) => {
    const message = decoder.read(atMs * 1000, 0x99, COWBELL, 90);
    for (const { onMessage } of taps) onMessage(message);
  };
  return { controls, strike };
}

describe('what is listened to on the live path', () => {
  const hear = vi.spyOn(ControlRecogniser.prototype, 'hear');
  afterEach(() => hear.mockClear());

  it.each([
    ['keys alone', KEY, 0],
    ['a pad', PAD, 1],
    ['a foot switch', SWITCH, 1],
  ])('%s: %s strikes of one', (_, { command, control }, heard) => {
    const { controls, strike } = rig();
    controls.add(command, control);
    flushSync();
    strike(0);
    expect(hear).toHaveBeenCalledTimes(heard);
  });

  it('is nothing again once the last pad is removed', () => {
    const { controls, strike } = rig();
    controls.add(PAD.command, PAD.control);
    flushSync();
    controls.remove(PAD);
    flushSync();
    strike(0);
    expect(hear).not.toHaveBeenCalled();
  });

  it('is what a control is learned from, and gives no command meanwhile', () => {
    vi.useFakeTimers();
    const { controls, strike } = rig();
    const learned = vi.fn();
    controls.learning.begin('faster', learned);
    strike(0);
    vi.runAllTimers();
    vi.useRealTimers();
    expect(learned).toHaveBeenCalledWith(PAD.control);
    expect(hear).not.toHaveBeenCalled();
  });
});
