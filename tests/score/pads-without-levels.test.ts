import { describe, expect, it } from 'vitest';
import { padsWithoutLevelsWords } from '../../src/coach/pads-without-levels-words';
import { kindOf } from '../claims/coach/naming';
import { findings } from '../../src/coach/findings';
import { boundariesOf } from '../../src/kit/boundaries-of';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { timedNotes } from '../../src/match/timed-notes';
import { assessMessages } from '../../src/score/assess';
import { judgeNote } from '../../src/score/judge';
import { padsWithoutLevels } from '../../src/score/pads-without-levels';
import { scoreTake } from '../../src/score/score-take';
import { gateOfTake } from '../../src/score/trials';
import { simulate } from '../../src/take/simulate';
import { steadyTempo } from '../../src/time/tempo';
import { layeredPhrase } from '../phrase/phrase-of';
import { answer, due } from './cases';

const PHRASE = layeredPhrase(
  { grouping: 'R L L K', cycle: 16 },
  [{ where: { limb: 'R', nth: [1, 3] }, set: { level: 'accent' } }],
  [{ where: { limb: 'L' }, set: { level: 'ghost' } }],
);
const PLAN = {
  phrase: PHRASE,
  passages: [{ fromBar: 1, layer: PHRASE.layers.length }],
  tempo: steadyTempo(90),
  windows: {},
};
const SNARE = 38;

/** A take in time, of which the pads of these notes send one velocity. */
function take(seconds: number, sent: ReadonlyMap<number, (i: number) => number>) {
  let count = 0;
  const { messages } = simulate(timedNotes(PLAN, seconds * 1e6), { velocitySpread: 6 }, 3);
  const played = messages.map((message) => {
    const velocity = sent.get(message.data1);
    return velocity ? { ...message, data2: velocity(count++) } : message;
  });
  return assessMessages(PLAN, played, GENERAL_MIDI).judgement;
}
const nameOf = (pad: number) => (pad === SNARE ? 'snare' : 'bass drum');
const onSnare = (velocity: (i: number) => number) => new Map([[SNARE, velocity]]);

describe('levels on a pad that has none', () => {
  const flat = take(
    30,
    onSnare(() => 100),
  );

  it('are not judged: every note in time is as written, and the gate asks for no more', () => {
    expect(scoreTake(flat).overall).toMatchObject({ tooLoud: 0, tooSoft: 0, asWritten: 1 });
    expect(gateOfTake(PLAN, flat).passed).toBe(true);
  });

  it('give no contrast and no finding', () => {
    expect(scoreTake(flat).dynamics.overall).toMatchObject({
      contrastDb: undefined,
      accents: 0,
      ghosts: 0,
    });
    const told = findings(PLAN, flat, (pad) => boundariesOf(GENERAL_MIDI, pad));
    expect(told.filter((one) => kindOf(one))).toEqual([]);
  });

  it('are said of with the pad, its velocity and the notes', () => {
    const struck = flat.notes.filter(({ stroke }) => stroke?.pad === SNARE).length;
    const pads = padsWithoutLevels(flat.notes);
    expect(pads).toEqual([{ pad: SNARE, velocity: 100, notes: struck, still: true }]);
    expect(padsWithoutLevelsWords(pads, nameOf)).toEqual([
      `Snare sends one velocity (100): the level of ${struck} notes there is not judged.`,
    ]);
  });

  it('are judged on a pad that sends two', () => {
    const two = take(
      30,
      onSnare((i) => (i === 0 ? 101 : 100)),
    );
    expect(padsWithoutLevels(two.notes)).toEqual([]);
    expect(scoreTake(two).overall.tooLoud).toBeGreaterThan(50);
    expect(gateOfTake(PLAN, two).passed).toBe(false);
  });

  it('are judged from the first other velocity on', () => {
    const later = take(
      30,
      onSnare((i) => (i < 20 ? 100 : 101)),
    );
    expect(padsWithoutLevels(later.notes)).toEqual([
      { pad: SNARE, velocity: 100, notes: 20, still: false },
    ]);
    const [sentence] = padsWithoutLevelsWords(padsWithoutLevels(later.notes), nameOf);
    expect(sentence).toBe(
      'Snare at first sent one velocity (100): the level of 20 notes there is not judged.',
    );
    expect(scoreTake(later).overall.tooLoud).toBeGreaterThan(40);
  });

  it('are told of several pads together', () => {
    const both = new Map([...onSnare(() => 90), [36, () => 90] as const]);
    const [sentence] = padsWithoutLevelsWords(padsWithoutLevels(take(30, both).notes), nameOf);
    expect(sentence).toMatch(
      /^Snare and bass drum send one velocity \(90\): the level of \d+ notes/,
    );
    const differing = new Map([...onSnare(() => 90), [36, () => 80] as const]);
    const [other] = padsWithoutLevelsWords(padsWithoutLevels(take(30, differing).notes), nameOf);
    expect(other).toMatch(/^Snare and bass drum send one velocity each: /);
  });

  it('stand in the order of how many notes they had, then of the pads', () => {
    const onPad = (pad: number) =>
      judgeNote(
        due(0),
        { timeUs: 0, voice: 'snare', velocity: 90, pad },
        () => undefined,
        () => ({ accents: true, ghosts: true }),
      );
    const missed = answer(due(0), undefined);
    const told = padsWithoutLevels([...[40, 48, 43, 48, 41].map(onPad), missed]);
    expect(told.map(({ pad, notes }) => [pad, notes])).toEqual([
      [48, 2],
      [40, 1],
      [41, 1],
      [43, 1],
    ]);
  });

  it('are no matter where the layer asks for none', () => {
    const plan = { ...PLAN, passages: [{ fromBar: 1, layer: 1 }] };
    const { messages } = simulate(timedNotes(plan, 30e6), {}, 1);
    const { notes } = assessMessages(plan, messages, GENERAL_MIDI).judgement;
    expect(padsWithoutLevels(notes)).toEqual([]);
    expect(new Set(notes.map(({ levelVerdict }) => levelVerdict))).toEqual(new Set(['as written']));
  });
});
