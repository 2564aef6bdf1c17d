import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import type { Kit } from '../../../src/kit/kit';
import { createKitReader } from '../../../src/kit/kit-reader';
import { hear, skip, startLearning } from '../../../src/kit/learn/learn';
import { LEARN_STEPS, stepsFor } from '../../../src/kit/learn/learn-steps';
import { struckKit } from '../../../src/kit/learn/struck-kit';
import { checkKit } from '../../../src/kit/parse-kit';
import { VOICES, type Voice } from '../../../src/phrase/model/voice';

/** Strikes the steps for some voices a second apart; `[note, controller]` moves the foot first, undefined waits. */
function strikeAll(
  voices: readonly Voice[],
  strokes: readonly (number | readonly [number, number] | undefined)[],
  inUse: Kit,
) {
  const learning = strokes.reduce(
    (before, stroke, i) => {
      const atMs = 1000 * i;
      if (stroke === undefined) return skip(before, atMs);
      const [note, value] = typeof stroke === 'number' ? [stroke, undefined] : stroke;
      const moved = value === undefined ? before : hear(before, atMs - 200, 0xb9, 4, value);
      return hear(moved, atMs, 0x99, note, 80);
    },
    startLearning(stepsFor(voices)),
  );
  return struckKit(learning, inUse);
}
const voiceOf = (kit: Kit, note: number, value?: number) => {
  const reader = createKitReader(kit);
  if (value !== undefined) reader.read(0xb9, 4, value);
  reader.read(0x99, note, 80);
  return VOICES[reader.voiceNumber];
};
const HAT: readonly Voice[] = ['hi-hat closed'];

describe('the pads a phrase asks for', () => {
  it('is one a voice, and three for the hi-hat', () => {
    expect(stepsFor(['floor tom', 'bass drum', 'snare']).map(({ ask }) => ask)).toEqual([
      'Play the bass drum.',
      'Strike the snare.',
      'Strike the floor tom.',
    ]);
    expect(stepsFor(['hi-hat open']).map(({ voice }) => voice)).toEqual([
      'hi-hat pedal',
      'hi-hat closed',
      'hi-hat open',
    ]);
    expect(stepsFor(['hi-hat pedal'])).toHaveLength(1);
    expect(stepsFor(['conga'])[0]?.ask).toBe('Strike the conga.');
  });

  it('asks for each voice once, and for no other', () =>
    fc.assert(
      fc.property(fc.subarray([...VOICES]), (voices) => {
        const asked = stepsFor(voices).map(({ voice }) => voice);
        expect(new Set(asked).size).toBe(asked.length);
        for (const voice of voices) expect(asked).toContain(voice);
        const more = asked.filter((voice) => !voices.includes(voice));
        for (const voice of more) expect(voice).toMatch(/^hi-hat/);
      }),
    ));

  it('steps on the pedal before any other zone of the hi-hat is struck', () => {
    const at = (group: string) => LEARN_STEPS.findIndex((step) => step.group === group);
    expect(at('hi-hat pedal')).toBeLessThan(at('hi-hat'));
  });
});

describe('a kit of which some pads were struck', () => {
  it('stays as it is where every note stands for what was asked', () => {
    const voices = ['bass drum', 'snare', 'floor tom'] as const;
    const struck = strikeAll(voices, [36, 38, 43], EDGE_AND_RIM);
    expect(struck.kit).toBe(EDGE_AND_RIM);
    expect(struck).toMatchObject({ has: voices, lacks: [] });
  });

  it('takes over notes that are unknown or stand for something else', () => {
    const { kit } = strikeAll(['bass drum', 'snare', 'cowbell'], [36, 31, 37], EDGE_AND_RIM);
    expect(voiceOf(kit, 31)).toBe('snare');
    expect(voiceOf(kit, 37)).toBe('cowbell');
    expect(checkKit(kit).ok).toBe(true);
    const others = EDGE_AND_RIM.pads.filter(({ note }) => note !== 37);
    expect(kit.pads).toEqual(expect.arrayContaining([...others]));
  });

  it('lacks what was waited for, and what a pad that answered before was struck for', () => {
    const struck = strikeAll(
      ['snare', 'high tom', 'mid tom', 'floor tom'],
      [38, 48, 48, undefined],
      EDGE_AND_RIM,
    );
    expect(struck.has).toEqual(['snare', 'high tom']);
    expect(struck.lacks).toEqual(['mid tom', 'floor tom']);
    expect(struck.kit).toBe(EDGE_AND_RIM);
  });

  it('takes no pad away from a voice that was struck another day', () => {
    const learning = hear(startLearning(stepsFor(['cowbell'])), 0, 0x99, 38, 80);
    expect(struckKit(learning, EDGE_AND_RIM, ['snare']).lacks).toEqual(['cowbell']);
    expect(struckKit(learning, EDGE_AND_RIM, ['crash']).has).toEqual(['cowbell']);
    expect(struckKit(learning, EDGE_AND_RIM, ['cowbell']).has).toEqual(['cowbell']);
  });

  it('whatever is struck: sound, each voice had or lacking, and what it has is read so', () =>
    fc.assert(
      fc.property(
        fc.subarray(['bass drum', 'snare', 'high tom', 'ride', 'cowbell', 'conga'] as Voice[]),
        fc.array(fc.option(fc.integer({ min: 0, max: 127 }), { nil: undefined }), {
          minLength: 6,
          maxLength: 6,
        }),
        fc.constantFrom(EDGE_AND_RIM, GENERAL_MIDI),
        (voices, notes, inUse) => {
          const asked = stepsFor(voices).map(({ voice }) => voice);
          const { kit, has, lacks } = strikeAll(voices, notes.slice(0, asked.length), inUse);
          expect(checkKit(kit).ok).toBe(true);
          expect([...has, ...lacks].sort()).toEqual([...asked].sort());
          asked.forEach((voice, i) => {
            if (has.includes(voice)) expect(voiceOf(kit, notes[i]!)).toBe(voice);
          });
        },
      ),
    ));

  it('reads one hi-hat note by its controller, whichever way that runs', () => {
    for (const [down, up] of [
      [118, 6],
      [2, 99],
    ] as const) {
      const struck = strikeAll(HAT, [[44, down], 42, [42, up]], EDGE_AND_RIM);
      expect(struck).toMatchObject({ has: ['hi-hat pedal', 'hi-hat closed', 'hi-hat open'] });
      expect(voiceOf(struck.kit, 42, down)).toBe('hi-hat closed');
      expect(voiceOf(struck.kit, 42, up)).toBe('hi-hat open');
    }
  });

  it('turns the notes of a reversed pedal round, those of the edge too', () => {
    const { kit, pedal } = strikeAll(HAT, [44, 46, 42], EDGE_AND_RIM);
    expect(pedal?.isReversed).toBe(true);
    expect([46, 26, 42, 22].map((note) => voiceOf(kit, note))).toEqual([
      'hi-hat closed',
      'hi-hat closed',
      'hi-hat open',
      'hi-hat open',
    ]);
    expect(kit.pads.find(({ note }) => note === 26)?.name).toBe('hi-hat closed edge');
  });

  it('lacks an open hi-hat that neither note nor controller tells', () => {
    const struck = strikeAll(HAT, [44, [42, 64], [42, 66]], EDGE_AND_RIM);
    expect(struck.lacks).toEqual(['hi-hat open']);
    expect(struck.pedal?.controller).toBe('stuck');
    expect(struck.kit).toBe(EDGE_AND_RIM);
  });
});
