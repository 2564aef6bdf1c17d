import { describe, expect, it } from 'vitest';
import { checkKit } from '../../../src/kit/parse-kit';
import {
  back,
  hear,
  skip,
  startLearning,
  WAIT_MS,
  waitLeftMs,
  type KitLearning,
} from '../../../src/kit/learn/learn';
import { learnedKit } from '../../../src/kit/learn/learned-kit';
import { LEARN_STEPS } from '../../../src/kit/learn/learn-steps';

/** Notes by step name, struck 500 ms apart; a step that is not named is skipped. */
function learn(
  notes: Readonly<Record<string, number>>,
  openingValues: Readonly<Record<string, number>> = {},
): KitLearning {
  return LEARN_STEPS.reduce((learning, { name }, i) => {
    const value = openingValues[name];
    const told = value === undefined ? learning : hear(learning, i * 500 - 90, 0xb9, 4, value);
    const note = notes[name];
    return note === undefined ? skip(told) : hear(told, i * 500, 0x99, note, 80);
  }, startLearning());
}
const voices = (learning: KitLearning) =>
  Object.fromEntries(learnedKit(learning, 'Slipway')!.kit.pads.map((pad) => [pad.note, pad.voice]));

describe('learning a kit', () => {
  it('ends with every struck zone in a kit that is sound', () => {
    const learning = learn({ 'bass drum': 1, 'snare head': 2, 'snare rim': 3, 'ride bell': 9 });
    expect(learning.step).toBe(LEARN_STEPS.length);
    expect(voices(learning)).toEqual({ 1: 'bass drum', 2: 'snare', 3: 'snare', 9: 'ride bell' });
    expect(checkKit(learnedKit(learning, 'Slipway')!.kit).ok).toBe(true);
    expect(learnedKit(learning, 'Slipway')!.remarks).toEqual([]);
  });

  it('says when two zones send the same note, and whether it matters', () => {
    const told = learnedKit(
      learn({ 'snare head': 2, 'snare rim': 2, 'snare side stick': 2 }),
      'x',
    )!;
    expect(told.kit.pads).toHaveLength(1);
    expect(told.remarks[0]).toBe(
      '"snare rim" sends the same note 2 as "snare head": the two count as one.',
    );
    expect(told.remarks[1]).toMatch(/does not tell them apart, and both count as snare/);
  });

  it('finds that notes tell open from closed', () => {
    const learning = learn({ 'hi-hat closed bow': 42, 'hi-hat open bow': 46, 'hi-hat pedal': 44 });
    expect(voices(learning)).toEqual({
      42: 'hi-hat closed',
      46: 'hi-hat open',
      44: 'hi-hat pedal',
    });
    const { kit } = learnedKit(learning, 'x')!;
    expect(kit.pads.some(({ followsOpening }) => followsOpening)).toBe(false);
  });

  it.each([
    ['closed', 100, 10],
    ['open', 5, 120],
  ] as const)('finds that controller 4 tells, high meaning %s', (highMeans, closed, open) => {
    const learning = learn(
      { 'hi-hat closed bow': 8, 'hi-hat open bow': 8 },
      { 'hi-hat closed bow': closed, 'hi-hat open bow': open },
    );
    const { kit, remarks } = learnedKit(learning, 'x')!;
    expect(kit.opening.highMeans).toBe(highMeans);
    expect(kit.pads).toMatchObject([{ note: 8, followsOpening: true }]);
    expect(remarks).toEqual([]);
    const openness = (value: number) => (highMeans === 'open' ? value : 127 - value) / 127;
    expect(openness(closed)).toBeLessThan(kit.opening.openFrom);
    expect(openness(open)).toBeGreaterThan(kit.opening.openFrom);
  });

  it('says when neither notes nor controller tell open from closed', () => {
    const learning = learn({ 'hi-hat closed bow': 8, 'hi-hat open bow': 8 });
    expect(learnedKit(learning, 'x')!.remarks).toHaveLength(1);
    expect(voices(learning)).toEqual({ 8: 'hi-hat closed' });
  });

  it('takes the loudest of pads that shake together, whichever comes first', () => {
    const faintFirst = hear(hear(startLearning(), 0, 0x99, 5, 9), 4, 0x99, 1, 90);
    const faintLast = hear(hear(startLearning(), 0, 0x99, 1, 90), 4, 0x99, 5, 9);
    for (const learning of [faintFirst, faintLast]) {
      expect(learning.step).toBe(1);
      expect(learning.heard[0]?.note).toBe(1);
    }
  });

  it('takes what comes 50 ms after or before for the same stroke, and what comes later for the next', () => {
    const first = hear(startLearning(), 100, 0x99, 1, 50);
    expect(hear(first, 150, 0x99, 5, 90).heard.slice(0, 2)).toMatchObject([{ note: 5 }, undefined]);
    expect(hear(first, 50, 0x99, 5, 90).step).toBe(1);
    expect(hear(first, 150.001, 0x99, 5, 90).heard.slice(0, 2)).toMatchObject([
      { note: 1 },
      { note: 5 },
    ]);
    expect(hear(first, 49.999, 0x99, 5, 90).step).toBe(2);
  });

  it('keeps the first of two that are equally loud', () => {
    const both = hear(hear(startLearning(), 0, 0x99, 1, 90), 4, 0x99, 5, 90);
    expect(both.heard[0]?.note).toBe(1);
  });

  it.each([
    [40, 56, true],
    [40, 55, false],
    [56, 40, true],
    [55, 40, false],
  ])('closed at %i and open at %i: the controller tells %s', (closed, open, tells) => {
    const learning = learn(
      { 'hi-hat closed bow': 8, 'hi-hat open bow': 8 },
      { 'hi-hat closed bow': closed, 'hi-hat open bow': open },
    );
    const { kit } = learnedKit(learning, 'x')!;
    expect(kit.pads[0]!.followsOpening ?? false).toBe(tells);
  });

  it('is not disturbed by note-offs, clock bytes, chokes or other controllers', () => {
    const start = startLearning();
    for (const [status, data1, data2] of [
      [0x99, 38, 0],
      [0x89, 38, 64],
      [0xf8, 0, 0],
      [0xa9, 49, 127],
      [0xb9, 7, 100],
    ] as const)
      expect(hear(start, 0, status, data1, data2)).toBe(start);
  });

  it('steps back to strike again, stays put at the end', () => {
    const wrong = hear(startLearning(), 0, 0x99, 60, 90);
    const right = hear(back(wrong), 900, 0x99, 36, 90);
    expect(right.heard[0]?.note).toBe(36);
    const done = learn({ 'bass drum': 1 });
    expect(skip(done)).toBe(done);
    expect(hear(done, 1e6, 0x99, 1, 80)).toBe(done);
    expect(learnedKit(startLearning(), 'x')).toBeUndefined();
  });

  it.each([
    [399, 1],
    [400, 2],
  ])('takes the pad just struck, %i ms later, for its bounce or for an answer', (ms, step) => {
    const first = hear(startLearning(), 1000, 0x99, 36, 90);
    expect(hear(first, 1000 + ms, 0x99, 36, 90).step).toBe(step);
  });

  it('leaves out, without a word, what is answered by the pad struck just before', () => {
    const learned = learnedKit(learn({ 'snare head': 38, 'tom 1 head': 48, cowbell: 48 }), 'x')!;
    expect(voices(learn({ 'snare head': 38, 'tom 1 head': 48, 'tom 2 head': 48 }))).toEqual({
      38: 'snare',
      48: 'high tom',
    });
    expect(learnedKit(learn({ 'tom 1 rim': 50, 'tom 2 head': 50 }), 'x')!.remarks).toEqual([]);
    // Not the one just before: the two may be mixed up.
    expect(learned.remarks).toHaveLength(1);
  });

  it('does not take the note of the pedal for a stroke of the stick', () => {
    const steps = LEARN_STEPS.filter(({ group }) => group === 'hi-hat' || group === 'hi-hat pedal');
    const chick = hear(startLearning(steps), 0, 0x99, 44, 70);
    const noSplash = skip(chick);
    const downAgain = hear(noSplash, 2000, 0x99, 44, 60);
    expect(downAgain).toBe(noSplash);
    expect(hear(downAgain, 3000, 0x99, 42, 90).heard[2]?.note).toBe(42);
  });

  it('waits for nobody before the first stroke, and then so long', () => {
    const nobody = startLearning();
    expect(waitLeftMs(nobody, 1e6)).toBeUndefined();
    const struck = hear(nobody, 1000, 0x99, 36, 90);
    expect(waitLeftMs(struck, 1000 + WAIT_MS - 1)).toBe(1);
    expect(waitLeftMs(struck, 1000 + WAIT_MS)).toBe(0);
    expect(waitLeftMs(skip(struck, 5000), 5000)).toBe(WAIT_MS);
    expect(waitLeftMs(learn({ 'bass drum': 1 }), 0)).toBeUndefined();
  });

  it('takes what the controller says just after a stroke for where it stood at it', () => {
    const steps = LEARN_STEPS.filter(({ zone }) => zone === 'bow');
    const strokes = (lateMs: number) => {
      const closed = hear(startLearning(steps), 0, 0x99, 8, 90);
      const lifted = hear(hear(closed, 20, 0xb9, 4, 118), 900, 0x99, 8, 90);
      return hear(lifted, 900 + lateMs, 0xb9, 4, 3).heard;
    };
    expect(strokes(50).map((one) => one?.openingValue)).toEqual([118, 3]);
    expect(strokes(51).map((one) => one?.openingValue)).toEqual([118, 118]);
  });
});
