import { boundariesOf } from '../../../kit/boundaries-of';
import type { Kit } from '../../../kit/kit';
import type { Level } from '../../../phrase/model/level';
import type { MonitoredStroke } from '../../../practice/inputs/kit-monitor.svelte';

/** The level that a stroke has on a kit; undefined where the kit has no pad for its note. */
export function levelOfStroke(
  { note, voice, velocity }: MonitoredStroke,
  kit: Kit,
): Level | undefined {
  if (voice === undefined) return undefined;
  const { ghostMax, accentMin } = boundariesOf(kit, note);
  return velocity <= ghostMax ? 'ghost' : velocity >= accentMin ? 'accent' : 'tap';
}

/**
 * A stroke in words.
 *
 * @example strokeWords({ note: 38, voice: 'snare', velocity: 64 }, GENERAL_MIDI) // => 'snare, tap, velocity 64'
 */
export function strokeWords(stroke: MonitoredStroke, kit: Kit): string {
  const { note, voice, velocity } = stroke;
  const what =
    voice === undefined
      ? `note ${note}, not on the note map`
      : `${voice}, ${levelOfStroke(stroke, kit)}`;
  return `${what}, velocity ${velocity}`;
}
