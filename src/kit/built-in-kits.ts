import edgeAndRim from '../../shared/kits/edge-and-rim.json';
import generalMidi from '../../shared/kits/general-midi.json';
import type { Kit } from './kit';
import { checkKit } from './parse-kit';

/**
 * The 47 percussion notes of General MIDI Level 1.
 *
 * @example GENERAL_MIDI.pads.length // => 47
 */
export const GENERAL_MIDI: Kit = builtIn(generalMidi);

/** A common layout of electronic kits, with edge and rim zones; General MIDI where they leave room. */
export const EDGE_AND_RIM: Kit = builtIn(edgeAndRim);

const GENERAL_NOTES = new Map(GENERAL_MIDI.pads.map((pad) => [pad.note, pad]));
/** What such a kit sends itself; its map's other pads are General MIDI's, under their names and groups there. */
const ZONES = EDGE_AND_RIM.pads.filter(({ note, name, group }) => {
  const general = GENERAL_NOTES.get(note);
  return general?.name !== name || general.group !== group;
});
const ZONE_NOTES: ReadonlySet<number> = new Set(ZONES.map(({ note }) => note));
/** Zones that General MIDI has another voice for: crash edges and a rim of the floor tom. */
const READ_OTHERWISE: ReadonlySet<number> = new Set(
  ZONES.filter(({ note, voice }) => GENERAL_NOTES.get(note)?.voice !== voice).map(
    ({ note }) => note,
  ),
);

/**
 * The built-in kit that a player's notes point to, a note for each stroke. A stroke speaks against a kit that would
 * not send its note; the kit with fewer of those is meant. Where both would send as many, it is the one with zones if
 * any note is a zone that General MIDI reads as something else, since kits are played more often than splash, china
 * and vibraslap are without any other percussion; else General MIDI. A guess for when nobody chose a kit.
 *
 * @example kitFor([36, 38, 22]).title // => 'Common electronic kit'
 */
export function kitFor(notes: Iterable<number>): Kit {
  let againstZones = 0;
  let againstGeneral = 0;
  let isReadOtherwise = false;
  for (const note of notes) {
    if (!ZONE_NOTES.has(note)) againstZones++;
    if (!GENERAL_NOTES.has(note)) againstGeneral++;
    if (READ_OTHERWISE.has(note)) isReadOtherwise = true;
  }
  const isZoned = againstZones === againstGeneral ? isReadOtherwise : againstZones < againstGeneral;
  return isZoned ? EDGE_AND_RIM : GENERAL_MIDI;
}

function builtIn(data: unknown): Kit {
  const kit = checkKit(data);
  if (!kit.ok) throw new Error(`a built-in kit is wrong: ${kit.errors[0]?.message}`);
  return kit.value;
}

/** Whether a kit comes with the app and cannot be changed or removed. @example isBuiltIn('My kit') // => false */
export const isBuiltIn = (title: string): boolean =>
  title === EDGE_AND_RIM.title || title === GENERAL_MIDI.title;
