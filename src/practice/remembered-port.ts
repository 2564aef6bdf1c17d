import * as v from 'valibot';
import type { WebMidiOptions } from '../midi/web-midi-source';
import type { SettingsStore } from '../store/settings-store';

const PortShape = v.object({
  manufacturer: v.string(),
  name: v.string(),
  place: v.number(),
  of: v.number(),
});

/** The MIDI port of last time, and where the choice of another is kept. */
export const rememberedPort = (
  settings: Pick<SettingsStore, 'read' | 'write'>,
): Pick<WebMidiOptions, 'remembered' | 'remember'> => ({
  remembered: settings.read('port', v.optional(PortShape), undefined),
  remember: (memory) => settings.write('port', memory),
});
