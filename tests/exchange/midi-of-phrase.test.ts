import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { midiOfPhrase } from '../../src/exchange/midi-of-phrase';
import { expand } from '../../src/phrase/layers/expand';
import { realignment } from '../../src/phrase/layers/realignment';
import type { PhraseFile } from '../../src/phrase/model/phrase-file';
import { arbitraryPhrase } from '../phrase/arbitrary-phrase';
import { phraseOf } from '../phrase/phrase-of';
import { runCount } from '../run-count';
import { byMidiFile, OTHER_READERS } from '../take/other-readers';

const FLAMS: PhraseFile = {
  title: 'Säge',
  meter: '4/4',
  tempoBpm: 60,
  subdivision: 2,
  grouping: 'lR L K',
  layers: [
    { name: 'Sticking' },
    { name: 'Ghosts', changes: [{ where: { limb: 'L' }, set: { level: 'ghost' } }] },
  ],
};

/** A line an event: its tick and what it is; note-offs left out. */
const linesOf = (bytes: Uint8Array) =>
  byMidiFile(bytes)
    .tracks[0]!.filter(({ words }) => !words.startsWith('off'))
    .map(({ tick, words }) => `${tick} ${words}`);

describe('midiOfPhrase', () => {
  it('is readable: flams ahead of the beat, hands under the notes, cycles marked', () => {
    // 30 ms at 60 a minute are 151.2 ticks of 5040; the bar ahead holds the first grace note
    expect(linesOf(midiOfPhrase(phraseOf(FLAMS), { layers: [2], bars: 1 }))).toEqual([
      '0 name Säge',
      '0 meter 4/4 24 8',
      '0 tempo 1000000',
      '0 marker Count-in',
      '20009 lyric l',
      '20009 on 10 38 72',
      '20160 marker Layer 2: Ghosts',
      '20160 text 2 partials a beat',
      '20160 marker Cycle 1',
      '20160 lyric R',
      '20160 on 10 38 72',
      '22680 lyric L',
      '22680 on 10 38 28',
      '25200 on 10 36 72',
      '27569 lyric l',
      '27569 on 10 38 72',
      '27720 marker Cycle 2',
      '27720 lyric R',
      '27720 on 10 38 72',
      '30240 lyric L',
      '30240 on 10 38 28',
      '32760 on 10 36 72',
      '35129 lyric l',
      '35129 on 10 38 72',
      '35280 marker Cycle 3',
      '35280 lyric R',
      '35280 on 10 38 72',
      '37800 lyric L',
      '37800 on 10 38 28',
      '40320 end',
    ]);
  });

  it('writes layers in turn, each until cycle and bar line meet again', () => {
    const lines = linesOf(midiOfPhrase(phraseOf(FLAMS), { layers: [1, 2] }));
    expect(lines.filter((line) => line.includes('Layer'))).toEqual([
      '20160 marker Layer 1: Sticking',
      `${20_160 * 4} marker Layer 2: Ghosts`,
    ]);
    expect(lines.at(-1)).toBe(`${20_160 * 7} end`);
  });

  it('marks a pickup, which takes the place of the last partials of the layer before', () => {
    const layers = [
      ...FLAMS.layers,
      { name: 'Pickup', changes: [{ pickup: [{ partialsBefore: 1, limb: 'R' as const }] }] },
    ];
    const phrase = phraseOf({ ...FLAMS, grouping: 'R L', layers });
    const lines = linesOf(midiOfPhrase(phrase, { layers: [2, 3], bars: 1 }));
    // no count-in: the second layer has no pickup; the last eighth of its bar is the pickup of the third
    expect(lines.filter((line) => / (?:marker|on) /.test(line)).slice(7, 13)).toEqual([
      '10080 marker Cycle 3',
      '10080 on 10 38 72',
      '12600 on 10 38 28',
      '15120 marker Cycle 4',
      '15120 on 10 38 72',
      '17640 marker Pickup',
    ]);
  });

  // Swing 2:1 puts the off-beat eighth on the third triplet partial: 3360 of 5040.
  it('writes swing where it sounds', () => {
    const phrase = phraseOf({ ...FLAMS, grouping: 'R L', swing: '2:1' });
    const ons = linesOf(midiOfPhrase(phrase, { bars: 1 })).filter((line) => line.includes(' on '));
    expect(ons.slice(0, 4).map((line) => Number(line.split(' ')[0]))).toEqual([
      0, 3360, 5040, 8400,
    ]);
  });

  it.each([
    ['7/8', 'meter 7/8 12 8', 1_000_000, 7],
    ['6/8', 'meter 6/8 36 8', 333_333, 6],
    ['5/16', 'meter 5/16 6 8', 2_000_000, 2.5],
  ] as const)('counts %s in its own beats', (meter, words, usPerQuarter, eighths) => {
    const tempoBpm = 120;
    const lines = linesOf(
      midiOfPhrase(phraseOf({ ...FLAMS, meter, tempoBpm, grouping: 'R L' }), { bars: 1 }),
    );
    expect(lines).toContain(`0 ${words}`);
    expect(lines).toContain(`0 tempo ${usPerQuarter}`);
    expect(lines.at(-1)).toBe(`${eighths * 2520} end`);
  });

  it.each(OTHER_READERS)('lawOtherReaders: %s finds our onsets, keys and velocities', (_, read) => {
    // General MIDI Level 1 percussion [F]; a foot splash has no key and takes the pedal's
    const KEYS = new Map<string, number>([
      ['bass drum', 36],
      ['side stick', 37],
      ['snare', 38],
      ['hi-hat closed', 42],
      ['hi-hat pedal', 44],
      ['hi-hat foot splash', 44],
      ['hi-hat open', 46],
      ['floor tom', 41],
      ['mid tom', 45],
      ['high tom', 48],
      ['crash', 49],
      ['ride', 51],
      ['china', 52],
      ['ride bell', 53],
      ['splash', 55],
      ['cowbell', 56],
    ]);
    const VELOCITIES = { ghost: 28, tap: 72, accent: 112 };
    fc.assert(
      fc.property(arbitraryPhrase(), fc.nat(5), (phrase, at) => {
        const layer = 1 + (at % phrase.layers.length);
        const bars = Math.min(4, realignment(phrase, layer).bars);
        const { format, ticksPerQuarter, tracks } = read(
          midiOfPhrase(phrase, { layers: [layer], bars }),
        );
        expect([format, ticksPerQuarter, tracks.length]).toEqual([0, 5040, 1]);
        const bar1 = tracks[0]!.find(({ words }) => words.startsWith('marker Layer'))!.tick;
        const found = tracks[0]!.filter(({ words }) => words.startsWith('on 10 '));
        const perBeat = phrase.meter.quartersPerBeat.mul(5040);
        const notes = expand(phrase, layer, { bars });
        expect(found.length).toBe(notes.length);
        const mains = notes
          .filter(({ graceStep }) => graceStep === 0)
          .filter(({ voice }) => KEYS.has(voice))
          .map(({ onset, voice, level }) => {
            const tick = bar1 + onset.mul(perBeat).round().valueOf();
            return `${tick} on 10 ${KEYS.get(voice)} ${VELOCITIES[level]}`;
          });
        const lines = found.map(({ tick, words }) => `${tick} ${words}`);
        expect(mains.filter((line) => !lines.includes(line))).toEqual([]);
      }),
      { numRuns: runCount(60) },
    );
  });

  it('refuses bars that are none', () => {
    expect(() => midiOfPhrase(phraseOf(FLAMS), { bars: 0 })).toThrow(RangeError);
    expect(() => midiOfPhrase(phraseOf(FLAMS), { layers: [3] })).toThrow(RangeError);
  });
});
