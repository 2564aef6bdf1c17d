import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { Voice } from '../../src/phrase/model/voice';

/**
 * [F] The Complete MIDI 1.0 Detailed Specification, 3rd ed. 2014, General MIDI System Level 1 (RP-003), Table 3,
 * names as printed; beside each the voice that the printed name asks for.
 */
const TABLE_3: readonly (readonly [number, string, Voice])[] = [
  [35, 'Acoustic Bass Drum', 'bass drum'],
  [36, 'Bass Drum 1', 'bass drum'],
  [37, 'Side Stick', 'side stick'],
  [38, 'Acoustic Snare', 'snare'],
  [39, 'Hand Clap', 'hand clap'],
  [40, 'Electric Snare', 'snare'],
  [41, 'Low Floor Tom', 'floor tom'],
  [42, 'Closed Hi Hat', 'hi-hat closed'],
  [43, 'High Floor Tom', 'floor tom'],
  [44, 'Pedal Hi-Hat', 'hi-hat pedal'],
  [45, 'Low Tom', 'mid tom'],
  [46, 'Open Hi-Hat', 'hi-hat open'],
  [47, 'Low-Mid Tom', 'mid tom'],
  [48, 'Hi Mid Tom', 'high tom'],
  [49, 'Crash Cymbal 1', 'crash'],
  [50, 'High Tom', 'high tom'],
  [51, 'Ride Cymbal 1', 'ride'],
  [52, 'Chinese Cymbal', 'china'],
  [53, 'Ride Bell', 'ride bell'],
  [54, 'Tambourine', 'tambourine'],
  [55, 'Splash Cymbal', 'splash'],
  [56, 'Cowbell', 'cowbell'],
  [57, 'Crash Cymbal 2', 'crash'],
  [58, 'Vibraslap', 'vibraslap'],
  [59, 'Ride Cymbal 2', 'ride'],
  [60, 'Hi Bongo', 'bongo'],
  [61, 'Low Bongo', 'bongo'],
  [62, 'Mute Hi Conga', 'conga'],
  [63, 'Open Hi Conga', 'conga'],
  [64, 'Low Conga', 'conga'],
  [65, 'High Timbale', 'timbale'],
  [66, 'Low Timbale', 'timbale'],
  [67, 'High Agogo', 'agogo'],
  [68, 'Low Agogo', 'agogo'],
  [69, 'Cabasa', 'shaker'],
  [70, 'Maracas', 'shaker'],
  [71, 'Short Whistle', 'whistle'],
  [72, 'Long Whistle', 'whistle'],
  [73, 'Short Guiro', 'guiro'],
  [74, 'Long Guiro', 'guiro'],
  [75, 'Claves', 'claves'],
  [76, 'Hi Wood Block', 'wood block'],
  [77, 'Low Wood Block', 'wood block'],
  [78, 'Mute Cuica', 'cuica'],
  [79, 'Open Cuica', 'cuica'],
  [80, 'Mute Triangle', 'triangle'],
  [81, 'Open Triangle', 'triangle'],
];

/**
 * [F] What an electronic kit with edge and rim zones sends: table on the page of the Groove MIDI Dataset
 * (Gillick et al. 2019, CC BY 4.0).
 */
const EDGE_AND_RIM_TABLE: readonly (readonly [number, Voice])[] = [
  [36, 'bass drum'],
  [38, 'snare'],
  [40, 'snare'],
  [37, 'side stick'],
  [48, 'high tom'],
  [50, 'high tom'],
  [45, 'mid tom'],
  [47, 'mid tom'],
  [43, 'floor tom'],
  [58, 'floor tom'],
  [46, 'hi-hat open'],
  [26, 'hi-hat open'],
  [42, 'hi-hat closed'],
  [22, 'hi-hat closed'],
  [44, 'hi-hat pedal'],
  [49, 'crash'],
  [55, 'crash'],
  [57, 'crash'],
  [52, 'crash'],
  [51, 'ride'],
  [59, 'ride'],
  [53, 'ride bell'],
];

const voicesOf = (kit: typeof GENERAL_MIDI) =>
  new Map(kit.pads.map(({ note, voice }) => [note, voice]));

describe('General MIDI percussion, RP-003 Table 3', () => {
  it('has exactly the 47 notes of the table', () => {
    expect(GENERAL_MIDI.pads.map(({ note }) => note).sort((a, b) => a - b)).toEqual(
      TABLE_3.map(([note]) => note),
    );
  });

  it.each(TABLE_3)('note %i, %s, is %s', (note, name, voice) => {
    const pad = GENERAL_MIDI.pads.find((candidate) => candidate.note === note);
    expect(pad?.voice).toBe(voice);
    expect(pad?.name).toBe(name.toLowerCase());
  });
});

describe('edge and rim zones, table of the Groove MIDI Dataset', () => {
  it.each(EDGE_AND_RIM_TABLE)('note %i is %s', (note, voice) => {
    expect(voicesOf(EDGE_AND_RIM).get(note)).toBe(voice);
  });

  it('leaves every other note to General MIDI', () => {
    const own = new Set(EDGE_AND_RIM_TABLE.map(([note]) => note));
    const rest = TABLE_3.filter(([note]) => !own.has(note)).map(([note, , voice]) => [note, voice]);
    const others = EDGE_AND_RIM.pads.filter(({ note }) => !own.has(note));
    expect(others.map(({ note, voice }) => [note, voice]).sort()).toEqual(rest.sort());
  });
});
