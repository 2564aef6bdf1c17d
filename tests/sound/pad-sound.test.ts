import { expect, it } from 'vitest';
import { createPadSound } from '../../src/sound/pad-sound';
import type { SoundEvent } from '../../src/sound/sound-event';

it('sounds strokes only when it is switched on', () => {
  const played: SoundEvent[] = [];
  const pads = createPadSound({ playNow: (event) => played.push(event), prepare: () => undefined });
  pads.strike('snare', 90);
  pads.enabled = true;
  pads.strike('ride bell', 40);
  expect(played).toEqual([{ kind: 'voice', timeUs: 0, voice: 'ride bell', velocity: 40 }]);
});
