import edgeAndRim from '../../shared/kits/edge-and-rim.json';
import generalMidi from '../../shared/kits/general-midi.json';
import type { Kit } from './kit';
import { checkKit } from './parse-kit';

/** The 47 percussion notes of General MIDI Level 1. */
export const GENERAL_MIDI: Kit = builtIn(generalMidi);

/** A common layout of electronic kits, with edge and rim zones; General MIDI where they leave room. */
export const EDGE_AND_RIM: Kit = builtIn(edgeAndRim);

/** Notes of hi-hat edge zones, below the notes General MIDI gives a meaning. */
const EDGE_NOTES: ReadonlySet<number> = new Set([22, 26]);

/**
 * The built-in kit that a player's notes point to: the one with edge zones when one of those is
 * struck, else General MIDI. A guess for when nobody chose a kit.
 *
 * @example kitFor([36, 38, 22]).title // => 'Edge and rim zones'
 */
export function kitFor(notes: Iterable<number>): Kit {
  for (const note of notes) if (EDGE_NOTES.has(note)) return EDGE_AND_RIM;
  return GENERAL_MIDI;
}

function builtIn(data: unknown): Kit {
  const kit = checkKit(data);
  if (!kit.ok) throw new Error(`a built-in kit is wrong: ${kit.errors[0]?.message}`);
  return kit.value;
}

/** Whether a kit comes with the app and cannot be changed or removed. @example isBuiltIn('My kit') // => false */
export const isBuiltIn = (title: string): boolean =>
  title === EDGE_AND_RIM.title || title === GENERAL_MIDI.title;
