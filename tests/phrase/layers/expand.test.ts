import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beats, mixedNumber } from '../../../src/time/beats';
import { lcm } from '../../../src/time/whole';
import { layerStack } from '../../../src/phrase/layers/layer-stack';
import { cycleNotes, expand, pickupNotes } from '../../../src/phrase/layers/expand';
import { layerShape } from '../../../src/phrase/layers/layer-shape';
import type { Note } from '../../../src/phrase/model/note';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { realignment } from '../../../src/phrase/layers/realignment';
import { voiceNumber } from '../../../src/phrase/model/voice';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { phraseOf } from '../phrase-of';

/** A note as plain text, onsets moved earlier by some beats and the cycle and bar by some. */
const told = (note: Note, byBeats = beats(0), byCycles = 0, byBars = 0) =>
  [
    note.onset.sub(byBeats).toFraction(),
    note.bar - byBars,
    mixedNumber(note.beat),
    note.cycle - byCycles,
    note.position,
    note.graceStep,
    note.limb,
    note.voice,
    note.level,
    note.layers.join(','),
  ].join(' ');

const last = (phrase: Phrase) => phrase.layers.length;

describe('laws of expanding', () => {
  it('lawInOrder: by onset, then grace notes outside in, then the row of the voice', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const notes = expand(phrase, last(phrase), { cycles: 6 });
        for (let i = 1; i < notes.length; i++) {
          const [a, b] = [notes[i - 1]!, notes[i]!];
          const order =
            a.onset.compare(b.onset) ||
            b.graceStep - a.graceStep ||
            voiceNumber(a.voice) - voiceNumber(b.voice);
          expect(order).toBeLessThanOrEqual(0);
        }
      }),
    );
  });

  it('lawSlices: any run of cycles is the same slice of the whole', () => {
    fc.assert(
      fc.property(
        arbitraryPhrase(),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 0, max: 5 }),
        (phrase, from, cycles) => {
          const whole = expand(phrase, last(phrase), { cycles: from + cycles - 1 });
          const slice = cycleNotes(phrase, last(phrase), from, cycles);
          expect(slice.map((note) => told(note))).toEqual(
            whole.filter((note) => note.cycle >= from).map((note) => told(note)),
          );
        },
      ),
    );
  });

  it('lawPickup: the pickup is what expanding no cycle gives, all of it in bar 0', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const pickup = pickupNotes(phrase, last(phrase));
        expect(expand(phrase, last(phrase), { cycles: 0 })).toEqual(pickup);
        for (const note of pickup) {
          expect(note).toMatchObject({ bar: 0, cycle: 0 });
          expect(note.onset.compare(0)).toBe(-1);
        }
      }),
    );
  });

  it('lawBars: so many bars hold exactly the notes before the next bar line', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), fc.integer({ min: 0, max: 5 }), (phrase, bars) => {
        const { barBeats, cycleBeats, startBeats } = layerShape(phrase, last(phrase));
        const end = barBeats.mul(bars);
        const cycles = Math.max(0, end.sub(startBeats).div(cycleBeats).ceil().valueOf());
        const whole = expand(phrase, last(phrase), { cycles });
        expect(expand(phrase, last(phrase), { bars })).toEqual(
          whole.filter((note) => note.onset.compare(end) < 0),
        );
      }),
    );
  });

  it('lawRealignment: after a realignment the same notes come again', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const layer = last(phrase);
        const found = realignment(phrase, layer);
        const cycles = lcm(found.cycles, layerStack(phrase, layer).period);
        fc.pre(cycles < 2000);
        const bars = (cycles / found.cycles) * found.bars;
        const shift = layerShape(phrase, layer).barBeats.mul(bars);
        const first = cycleNotes(phrase, layer, 2, 3);
        const again = cycleNotes(phrase, layer, 2 + cycles, 3);
        expect(again.map((note) => told(note, shift, cycles, bars))).toEqual(
          first.map((note) => told(note)),
        );
      }),
    );
  });

  it('lawExact: ten thousand cycles on, the onset is still the rational', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const layer = last(phrase);
        const { cycleBeats } = layerShape(phrase, layer);
        const period = lcm(realignment(phrase, layer).cycles, layerStack(phrase, layer).period);
        fc.pre(period < 5000);
        const far = 2 + Math.ceil(10_000 / period) * period;
        const [near] = cycleNotes(phrase, layer, 2, 1);
        fc.pre(near !== undefined);
        const [there] = cycleNotes(phrase, layer, far, 1);
        const expected = near.onset.add(cycleBeats.mul(far - 2));
        expect(there!.onset.toFraction()).toBe(expected.toFraction());
      }),
    );
  });

  it('lawBeat: bar and beat say where the note is written', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const layer = last(phrase);
        const { barBeats, subdivision, swing } = layerShape(phrase, layer);
        for (const note of expand(phrase, layer, { cycles: 4 })) {
          const written = barBeats
            .mul(note.bar - 1)
            .add(note.beat)
            .sub(1);
          expect(note.beat.compare(1)).toBeGreaterThanOrEqual(0);
          expect(note.beat.compare(barBeats.add(1))).toBe(-1);
          expect(written.mul(subdivision).d).toBe(1n);
          if (swing === undefined) expect(note.onset.toFraction()).toBe(written.toFraction());
          else expect(note.onset.floor().toFraction()).toBe(written.floor().toFraction());
        }
      }),
    );
  });

  it('lawOneLimb: no limb has two main notes at once', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const mains = expand(phrase, last(phrase), { cycles: 30 }).filter((n) => n.graceStep === 0);
        const places = mains.map((note) => `${note.onset.toFraction()} ${note.limb}`);
        expect(new Set(places).size).toBe(places.length);
      }),
    );
  });

  it('lawLayers: a note names layers up to the one expanded, ascending, the maker first', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        for (let layer = 1; layer <= last(phrase); layer++)
          for (const { layers } of expand(phrase, layer, { cycles: 3 })) {
            const rises = layers.every((number, i) => number > (layers[i - 1] ?? 0));
            expect(rises && layers.length > 0 && layers.at(-1)! <= layer).toBe(true);
          }
      }),
    );
  });
});

describe('expand', () => {
  it('starts the grouping over with every cycle, cut at its end: 5+5+5+1', () => {
    const phrase = phraseOf({ grouping: 'R L R L K', cycle: 16 });
    const feet = expand(phrase, 1, { cycles: 2 }).filter((note) => note.limb === 'K');
    expect(feet.map((note) => note.onset.mul(4).valueOf())).toEqual([4, 9, 14, 20, 25, 30]);
  });

  it('lands the last of 10,000 cycles of 20 partials on 50,000 beats less one sixteenth', () => {
    const notes = expand(phraseOf({ grouping: 'R L R L K', cycle: 20 }), 1, { cycles: 10_000 });
    expect(notes).toHaveLength(200_000);
    expect(notes.at(-1)!.onset.toFraction()).toBe('199999/4');
  });

  it('orders a flam and what sounds with it: grace notes first, then top of the staff first', () => {
    const phrase = phraseOf({ grouping: 'llR+K+F' });
    expect(
      expand(phrase, 1, { cycles: 1 }).map(({ limb, voice, graceStep }) => [
        limb,
        voice,
        graceStep,
      ]),
    ).toEqual([
      ['L', 'snare', 2],
      ['L', 'snare', 1],
      ['R', 'snare', 0],
      ['K', 'bass drum', 0],
      ['F', 'hi-hat pedal', 0],
    ]);
  });

  it.each([
    ['4/4', 4, 31, 2, '4 3/4'],
    ['3/4', 3, 10, 2, '1 1/3'],
    ['6/8', 3, 4, 1, '2 1/3'],
    ['7/8', 2, 11, 1, '6 1/2'],
    ['12/8', 6, 19, 1, '4 1/6'],
    ['5/16', 1, 6, 2, '2'],
  ])(
    'in %s with %i partials a beat, partial %i from 0 is bar %i beat %s (common practice, no source)',
    (meter, subdivision, partial, bar, beat) => {
      const notes = expand(phraseOf({ meter, subdivision, grouping: 'R' }), 1, { bars: 3 });
      expect(notes[partial]!.bar).toBe(bar);
      expect(mixedNumber(notes[partial]!.beat)).toBe(beat);
    },
  );

  it.each([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])('hits on subdivision %i', (subdivision) => {
    const notes = expand(phraseOf({ subdivision, grouping: 'R' }), 1, { bars: 1 });
    expect(notes).toHaveLength(4 * subdivision);
    const eachOnset = notes.map((note, i) => note.onset.mul(subdivision).equals(i));
    expect(eachOnset).not.toContain(false);
  });

  it('refuses a layer the phrase does not have and a span that is no count', () => {
    const phrase = phraseOf({ grouping: 'R' });
    expect(() => expand(phrase, 2, { cycles: 1 })).toThrow(RangeError);
    expect(() => expand(phrase, 0, { cycles: 1 })).toThrow(RangeError);
    expect(() => expand(phrase, 1, { cycles: 1.5 })).toThrow(RangeError);
    expect(() => cycleNotes(phrase, 1, 0, 1)).toThrow(RangeError);
  });
});
