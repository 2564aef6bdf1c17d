import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { withBoundaries } from '../../src/kit/edit-kit';
import type { Stroke } from '../../src/kit/stroke';
import type { Plan } from '../../src/match/plan';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { assess } from '../../src/score/assess';
import { requiredLevels } from '../../src/score/required-levels';
import { steadyTempo } from '../../src/time/tempo';

/** Notes 250 ms apart: sixteenths at 60. */
function plan(file: object, rest: Partial<Plan> = {}): Plan {
  const phrase = checkPhrase({
    title: 'Harbour light',
    meter: '4/4',
    tempoBpm: 60,
    subdivision: 4,
    grouping: 'R L',
    layers: [{ name: 'Sticking' }],
    ...file,
  });
  if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
  return {
    phrase: phrase.value,
    passages: [{ fromBar: 1, layer: 1 }],
    tempo: steadyTempo(60),
    windows: {},
    ...rest,
  };
}

const stroke = (ms: number, voice: Stroke['voice'] = 'snare', velocity = 70): Stroke => ({
  timeUs: Math.round(ms * 1000),
  voice,
  velocity,
  pad: 38,
});

const verdicts = (one: Plan, strokes: readonly Stroke[]) =>
  assess(one, strokes, GENERAL_MIDI).notes.map(
    ({ due, verdict }) => `${due.timeUs / 1000} ${due.note.voice} ${verdict}`,
  );

describe('how far the end of a take is judged', () => {
  it('not at all where nothing was played', () => {
    expect(assess(plan({}), [], GENERAL_MIDI)).toEqual({ notes: [], extras: [] });
  });

  it.each([
    ['on its note', 500, ['0 snare in time', '250 snare missed', '500 snare in time']],
    ['early by the reach', 400, ['0 snare in time', '250 snare missed', '500 snare early']],
    [
      'late, with the next note beyond',
      590,
      ['0 snare in time', '250 snare missed', '500 snare late'],
    ],
    ['early by more than the reach', 399.999, ['0 snare in time', '250 snare missed']],
    ['before the first note', -90, ['0 snare in time']],
  ])('up to the last stroke or its note: last stroke %s', (_, lastMs, judged) => {
    expect(verdicts(plan({}), [stroke(lastMs), stroke(0)])).toEqual(judged);
  });

  it('as far as the reach that the player set', () => {
    const last = [stroke(0), stroke(250), stroke(315)];
    const wide = plan({}, { windows: { reachMs: 200 } });
    expect(verdicts(wide, last)).toEqual([
      '0 snare in time',
      '250 snare in time',
      '500 snare early',
    ]);
    expect(verdicts(plan({}), last)).toHaveLength(2);
    const narrow = plan({}, { windows: { reachMs: 20 } });
    expect(verdicts(narrow, [stroke(0), stroke(230)])).toHaveLength(2);
    expect(verdicts(narrow, [stroke(0), stroke(229)])).toHaveLength(1);
  });

  // The lower staff first in one case, the upper in the other.
  it.each([
    ['snare', ['500 snare early', '500 bass drum missed']],
    ['bass drum', ['500 snare missed', '500 bass drum early']],
  ] as const)(
    'what is due together with the last answered note, here the %s, too',
    (voice, last) => {
      const unison = plan({ grouping: 'R+K L' });
      const strokes = [stroke(0), stroke(0, 'bass drum'), stroke(250), stroke(460, voice)];
      expect(verdicts(unison, strokes).slice(3)).toEqual(last);
    },
  );

  it('a note due at the very time of the last stroke, though that answers another', () => {
    const layers = [
      { name: 'Toms', changes: [{ where: { limb: 'L' }, set: { voice: 'floor tom' } }] },
    ];
    const wide = plan({ layers }, { windows: { reachMs: 500 } });
    expect(verdicts(wide, [stroke(250)])).toEqual(['0 snare late', '250 floor tom missed']);
    expect(verdicts(wide, [stroke(249.999)])).toEqual(['0 snare late']);
  });

  it('every stroke that answers nothing is extra, in the order given', () => {
    const strokes = [stroke(130), stroke(0), stroke(-400)];
    expect(assess(plan({}), strokes, GENERAL_MIDI).extras).toEqual([strokes[0], strokes[2]]);
  });
});

describe('the levels that are asked', () => {
  const layers = [
    { name: 'Sticking' },
    { name: 'Accents', changes: [{ where: { limb: 'R' }, set: { level: 'accent' } }] },
    { name: 'Ghosts', changes: [{ where: { limb: 'L' }, set: { level: 'ghost' } }] },
  ];
  const levels = (layer: number, kit = GENERAL_MIDI) =>
    assess(
      plan({ layers }, { passages: [{ fromBar: 1, layer }] }),
      [stroke(0, 'snare', 90), stroke(250, 'snare', 100)],
      kit,
    ).notes.map(({ levelVerdict }) => levelVerdict);

  it('are those the layer writes', () => {
    expect(levels(1)).toEqual(['as written', 'as written']);
    expect(levels(2)).toEqual(['too soft', 'too loud']);
    expect(levels(3)).toEqual(['too soft', 'too loud']);
  });

  it('have the boundaries of the pad that was struck', () => {
    const own = withBoundaries(GENERAL_MIDI, 38, { ghostMax: 100, accentMin: 110 });
    expect(levels(3, own)).toEqual(['too soft', 'as written']);
  });

  it('are none for a layer that is not in the plan', () => {
    const asks = requiredLevels({
      phrase: plan({ layers }).phrase,
      passages: [
        { fromBar: 1, layer: 2 },
        { fromBar: 3, layer: 3 },
      ],
    });
    expect([1, 2, 3].map(asks)).toEqual([
      { accents: false, ghosts: false },
      { accents: true, ghosts: false },
      { accents: true, ghosts: true },
    ]);
  });
});
