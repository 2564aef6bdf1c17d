import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { midiOfPhrase } from '../../src/exchange/midi-of-phrase';
import { phraseInFile, type PhraseInFileOptions } from '../../src/exchange/phrase-in-file';
import { expand } from '../../src/phrase/layers/expand';
import { realignment } from '../../src/phrase/layers/realignment';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../src/phrase/model/phrase';
import {
  meterEvent,
  midiFileBytes,
  tempoEvent,
  textEvent,
  type MidiEvent,
} from '../../src/take/midi-bytes';
import { readMidiFile } from '../../src/take/read-midi-file';
import { parseMeter } from '../../src/time/meter';
import { arbitraryPhrase } from '../phrase/arbitrary-phrase';
import { libraryPhrases } from '../phrase/library-phrases';
import { phraseOf } from '../phrase/phrase-of';
import { runCount } from '../run-count';
import { HUMAN_TAKES, humanTake } from '../take/human-takes';

function read(bytes: Uint8Array, options: PhraseInFileOptions = {}) {
  const file = readMidiFile(bytes);
  if (!file.ok) throw new Error(file.errors[0]!.message);
  return phraseInFile(file.value, options);
}

function phraseIn(bytes: Uint8Array, options: PhraseInFileOptions = {}) {
  const found = read(bytes, options);
  if (!found.ok) throw new Error(found.errors[0]!.message);
  return found.value;
}

/** Everything that sounds in so many bars; a foot splash has no key of its own in General MIDI. */
const target = (phrase: Phrase, layer: number, bars: number): string[] =>
  expand(phrase, layer, { bars })
    .map(({ onset, bar, graceStep, graceOf, limb, voice, level }) =>
      [
        ...[onset.toFraction(), bar, graceStep, graceOf ?? '', limb, level],
        voice === 'hi-hat foot splash' ? 'hi-hat pedal' : voice,
      ].join(' '),
    )
    .sort();

function expectSameTarget(phrase: Phrase, layer: number, bars: number): void {
  const { phrase: again, remarks } = phraseIn(midiOfPhrase(phrase, { layers: [layer], bars }));
  expect(target(again, again.layers.length, bars)).toEqual(target(phrase, layer, bars));
  expect(remarks).toEqual([]);
  const { title, meterText, tempoBpm } = phrase;
  expect(again).toMatchObject({ title, meterText, tempoBpm });
}

const LIBRARY = libraryPhrases().map(({ name, text }) => {
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  return [name, parsed.value] as const;
});

describe('phraseInFile, of what midiOfPhrase wrote', () => {
  it.each(LIBRARY)('lawMidiRoundTrip: %s has the same target, at every layer', (_, phrase) => {
    phrase.layers.forEach((_, i) =>
      expectSameTarget(phrase, i + 1, realignment(phrase, i + 1).bars),
    );
  });

  it('lawMidiRoundTrip: any phrase at any layer, as far as it is written', () => {
    fc.assert(
      fc.property(
        arbitraryPhrase(),
        fc.nat(5),
        fc.integer({ min: 1, max: 6 }),
        (phrase, at, most) => {
          const layer = 1 + (at % phrase.layers.length);
          const bars = Math.min(most, realignment(phrase, layer).bars);
          const notes = expand(phrase, layer, { bars });
          // A pickup alone is no phrase.
          fc.pre(notes.some(({ cycle }) => cycle > 0));
          expectSameTarget(phrase, layer, bars);
        },
      ),
      { numRuns: runCount(50, 15) },
    );
  });

  const TWO = phraseOf({
    title: 'Säge “5–4”',
    tempoBpm: 96.5,
    grouping: 'R L L R K',
    layers: [
      { name: 'Sticking' },
      { name: 'Accents', changes: [{ where: { limb: 'R' }, set: { level: 'accent' } }] },
    ],
  });

  it('takes one of the layers in turn, the last unless another is asked for', () => {
    const bytes = midiOfPhrase(TWO, { layers: [1, 2] });
    const last = phraseIn(bytes);
    expect(target(last.phrase, last.phrase.layers.length, 5)).toEqual(target(TWO, 2, 5));
    expect(last.remarks).toEqual([
      {
        bar: undefined,
        sentence: 'The file has layers 1, 2; layer 2 is read, since a phrase is made of one.',
      },
    ]);
    const first = phraseIn(bytes, { layer: 1 }).phrase;
    expect(target(first, first.layers.length, 5)).toEqual(target(TWO, 1, 5));
    expect(read(bytes, { layer: 3 })).toMatchObject({ errors: [{ code: 'LAYER' }] });
  });

  it('takes it apart into layers again, and has the notes as they stand beside', () => {
    const { phrase, pattern } = phraseIn(midiOfPhrase(TWO));
    expect(pattern).toMatchObject({ meter: '4/4', subdivision: 4, tempoBpm: 96.5, pickup: [] });
    expect(pattern.notes.map(({ limb, level }) => `${limb} ${level}`).slice(0, 5)).toEqual([
      ...['R accent', 'L tap', 'L tap', 'R accent', 'K tap'],
    ]);
    expect(phrase.groupingText).toBe('R L L R K');
    expect(phrase.layers.map(({ name }) => name)).toEqual(['Sticking', 'Accents']);
    expect(phrase.tempoBpm).toBe(96.5);
  });
});

/** A file of another program: 480 ticks a quarter, no letters, no markers. */
const file = (events: readonly MidiEvent[], endTick = 0) =>
  midiFileBytes(480, [tempoEvent(0, 600_000), ...events], endTick);
const hit = (tick: number, key: number, velocity = 100, channel = 10): MidiEvent => ({
  tick,
  bytes: [0x8f + channel, key, velocity],
});
const SIXTEENTH = 120;
/** Closed hat in eighths, bass drum on 1 and 3, snare on 2 and 4: bar after bar. */
const groove = (bars: number): MidiEvent[] =>
  Array.from({ length: bars * 8 }, (_, i) => [
    hit(i * 240, 42, 80),
    ...(i % 4 === 0 ? [hit(i * 240, 36)] : i % 4 === 2 ? [hit(i * 240, 38)] : []),
  ]).flat();
const sentences = (bytes: Uint8Array) => phraseIn(bytes).remarks.map(({ sentence }) => sentence);
const GUESSED =
  'The file does not say which hand strikes; the sticking is a guess. Correct it in the phrase.';

describe('phraseInFile, of what another program wrote', () => {
  it('reads a groove: cycle, meter, tempo, levels by velocity, hands guessed and said to be', () => {
    const { phrase, remarks } = phraseIn(file(groove(4)), { title: 'Groove' });
    expect(phrase).toMatchObject({
      ...{ title: 'Groove', meterText: '4/4', tempoBpm: 100, subdivision: 2, cycle: 4 },
    });
    const sounds = expand(phrase, phrase.layers.length, { bars: 1 }).map(
      ({ onset, voice, level }) => `${onset.toFraction()} ${voice} ${level}`,
    );
    expect(sounds.sort()).toEqual(
      [
        ...['0', '1/2', '1', '3/2', '2', '5/2', '3', '7/2'].map((at) => `${at} hi-hat closed tap`),
        ...['0', '2'].map((at) => `${at} bass drum accent`),
        ...['1', '3'].map((at) => `${at} snare accent`),
      ].sort(),
    );
    expect(remarks.map(({ sentence }) => sentence)).toEqual([GUESSED]);
  });

  it('takes notes of one velocity for taps, whatever it is', () => {
    const levels = (velocity: number) =>
      new Set(
        expand(
          phraseIn(file([0, 1, 2, 3].map((i) => hit(i * SIXTEENTH, 38, velocity)))).phrase,
          1,
          { bars: 1 },
        ).map(({ level }) => level),
      );
    expect([...levels(100)]).toEqual(['tap']);
    expect([...levels(30)]).toEqual(['tap']);
  });

  it('hears a flam ahead of the beat by the other hand', () => {
    const flams = [0, 1, 2, 3].flatMap((i) => [
      hit(480 + i * 480 - 20, 38, 40),
      hit(480 + i * 480, 38, 100),
    ]);
    const { phrase } = phraseIn(file(flams, 1920 * 2));
    const graces = expand(phrase, phrase.layers.length, { bars: 1 }).filter(
      ({ graceStep }) => graceStep === 1,
    );
    expect(graces.map(({ onset, level }) => `${onset.toFraction()} ${level}`)).toEqual([
      ...['1 ghost', '2 ghost', '3 ghost'],
    ]);
    expect(graces.every(({ limb, graceOf }) => limb !== graceOf)).toBe(true);
  });

  it.each([
    ['eighths at 2:1 swung', [0, 320], 2, '2:1'],
    ['triplets', [0, 160, 320], 3, undefined],
    ['quintuplets', [0, 96, 192, 288, 384], 5, undefined],
    ['septuplets, their ticks rounded', [0, 69, 137, 206, 274, 343, 411], 7, undefined],
  ] as const)('finds %s', (_, places, subdivision, swing) => {
    const notes = [0, 1, 2, 3].flatMap((beat) => places.map((at) => hit(beat * 480 + at, 38)));
    const { phrase } = phraseIn(file(notes));
    const { swing: found } = phrase;
    expect(phrase.subdivision).toBe(subdivision);
    expect(found && `${found.n}:${found.d}`).toBe(swing);
  });

  it('names what it leaves out by bar', () => {
    const more = [
      hit(1920 + 50, 38),
      hit(1920 + 1210, 36),
      hit(2 * 1920 + 480, 100),
      hit(480, 60, 90, 1),
      meterEvent(3 * 1920, parseMeter('3/4')!),
      tempoEvent(2 * 1920 + 960, 500_000),
    ];
    expect(
      sentences(file([...groove(3), ...more, ...[0, 1].map((i) => hit(3 * 1920 + i * 480, 38))])),
    ).toEqual([
      'Notes on other channels than 10 are no percussion and are left out.',
      GUESSED,
      'Bar 2: 2 notes left out, between the partials.',
      'Bar 3: the tempo changes; a phrase has one, and 100 beats a minute stay.',
      'Bar 3: 1 note left out, on keys that General MIDI has no drum for.',
      'Bar 4: the meter changes to 3/4; from here on nothing is read.',
    ]);
  });

  it.each([
    [300, []],
    [500, ['The tempo of 500 is beyond 30 to 300; 300 beats a minute are taken.']],
    [30, []],
    [20, ['The tempo of 20 is beyond 30 to 300; 30 beats a minute are taken.']],
  ] as const)('takes the tempo of %d, or the nearest that a phrase may have', (bpm, told) => {
    const notes = [0, 1, 2, 3].map((i) => hit(i * SIXTEENTH, 38, 80));
    const { phrase, remarks } = phraseIn(file([...notes, tempoEvent(0, 60e6 / bpm)]));
    expect(phrase.tempoBpm).toBe(Math.min(Math.max(bpm, 30), 300));
    expect(remarks.map(({ sentence }) => sentence)).toEqual([...told, GUESSED]);
  });

  it('says so where a third hand would be needed', () => {
    const notes = [0, 1, 2, 3].flatMap((beat) => [38, 42, 49].map((key) => hit(beat * 480, key)));
    expect(sentences(file(notes))).toContain(
      'Bar 1: 1 note left out, since no limb is left to strike them.',
    );
  });

  it('begins where the first bar with a note does', () => {
    const later = groove(2).map(({ tick, bytes }) => ({ tick: tick + 2 * 1920, bytes }));
    expect(sentences(file(later))).toContain('Bars 1 to 2 are empty; the phrase begins at bar 3.');
  });

  it('keeps what never comes round as it stands, as far as a cycle reaches', () => {
    // 40 bars of sixteenths, the accents at the squares: 640 partials, and a cycle has 512
    const notes = Array.from({ length: 640 }, (_, i) =>
      hit(i * SIXTEENTH, 38, Number.isInteger(Math.sqrt(i)) ? 110 : 70),
    );
    const { phrase, remarks } = phraseIn(file(notes));
    const accents = expand(phrase, phrase.layers.length, { bars: 32 })
      .filter(({ level }) => level === 'accent')
      .map(({ onset }) => onset.valueOf() * 4);
    expect(accents).toEqual(Array.from({ length: 23 }, (_, i) => i * i));
    const cut = remarks.find(({ bar }) => bar !== undefined);
    if (phrase.cycle <= 512 && cut) expect(cut.bar).toBe(33);
  });

  it.each([
    ['NO_PERCUSSION', file([hit(0, 60, 90, 1)])],
    ['METER', file([meterEvent(0, { ...parseMeter('3/4')!, count: 33 }), hit(0, 38)])],
    ['LAYER', file(groove(1)), 1],
  ] as const)('refuses %s', (code, bytes, layer?: number) => {
    expect(read(bytes, { layer })).toMatchObject({ ok: false, errors: [{ code }] });
  });

  it('refuses a file that counts in frames', () => {
    const bytes = file(groove(1));
    bytes.set([0xe7, 0x28], 12);
    expect(read(bytes)).toMatchObject({ errors: [{ code: 'FRAMES' }] });
  });

  it.each(HUMAN_TAKES)('refuses %s, which was played: capture is for those', (name) => {
    expect(read(humanTake(name))).toMatchObject({ errors: [{ code: 'NOT_WRITTEN' }] });
  });

  it('reads the title in whatever letters', () => {
    const bytes = file([textEvent(0, 'name', '波止場'), ...groove(1)]);
    expect(phraseIn(bytes).phrase.title).toBe('波止場');
  });
});
