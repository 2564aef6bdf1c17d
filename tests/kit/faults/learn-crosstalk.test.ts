import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../../src/kit/built-in-kits';
import {
  learnCrosstalk,
  withCrosstalk,
  withoutCrosstalk,
  type StruckPad,
} from '../../../src/kit/faults/learn-crosstalk';
import { parseKit, writeKit } from '../../../src/kit/parse-kit';
import { setAside } from '../../../src/kit/set-aside';
import { chance } from '../../../src/time/chance';

const SEED = 1414;
const { normal, share } = chance(SEED);

/** Strikes on one pad; another answers a share of them, so late and so loud on the average. */
function struck(
  note: number,
  answering?: { note: number; share: number; ms: number; percent: number },
): StruckPad {
  const strokes: { timeUs: number; velocity: number; pad: number }[] = [];
  for (let i = 0; i < 10; i++) {
    const timeUs = i * 700_000 + Math.round(9000 * normal());
    const velocity = Math.round(112 + 5 * normal());
    strokes.push({ timeUs, velocity, pad: note });
    if (!answering || share() >= answering.share) continue;
    strokes.push({
      timeUs: timeUs + Math.round(1000 * (answering.ms + 0.5 * normal())),
      velocity: Math.max(1, Math.round((velocity * (answering.percent + 2 * normal())) / 100)),
      pad: answering.note,
    });
  }
  return { note, strokes };
}

describe(`crosstalk learned by striking each pad, seed ${SEED}`, () => {
  const learned = learnCrosstalk(EDGE_AND_RIM, [
    struck(38, { note: 48, share: 0.9, ms: 8, percent: 22 }),
    struck(48, { note: 38, share: 0, ms: 0, percent: 0 }),
    struck(36, { note: 44, share: 0.7, ms: -3, percent: 10 }),
  ]);

  it('finds the pairs, their share, delay and loudness', () => {
    expect(learned.answers.map((one) => [one.struck, one.answers])).toEqual([
      ['snare', 'tom 1'],
      ['bass drum', 'hi-hat pedal'],
    ]);
    const [tom, pedal] = learned.answers;
    expect(tom!.answered / tom!.strikes).toBeGreaterThanOrEqual(0.7);
    expect(Math.abs(tom!.delayMs - 8)).toBeLessThan(1);
    expect(Math.abs(tom!.loudestPercent - 24)).toBeLessThan(5);
    expect(pedal!.delayMs).toBeLessThan(-2);
    expect(learned.sentences[1]).toContain('before it');
  });

  it('masks what was learned, in the kit file and after', () => {
    const kit = withCrosstalk(EDGE_AND_RIM, learned.masks);
    const read = parseKit(writeKit(kit));
    if (!read.ok) throw new Error(read.errors[0]!.message);
    const hits = [
      { timeUs: 0, pad: 38, velocity: 110 },
      { timeUs: 8000, pad: 48, velocity: 24 },
    ];
    expect([...setAside(hits, EDGE_AND_RIM)]).toEqual([0, 0]);
    expect([...setAside(hits, read.value)]).toEqual([0, 2]);
    expect([...setAside([hits[0]!, { ...hits[1]!, velocity: 60 }], read.value)]).toEqual([0, 0]);
  });

  it('a pair learned again takes the place of the old one', () => {
    const [mask] = learned.masks;
    const wider = { ...mask!, withinMs: 15 };
    const kit = withCrosstalk(withCrosstalk(EDGE_AND_RIM, learned.masks), [wider]);
    expect(kit.crosstalk).toHaveLength(2);
    expect(kit.crosstalk).toContainEqual(wider);
  });

  it('forgets the answers of the groups named and no others', () => {
    const kit = withCrosstalk(EDGE_AND_RIM, learned.masks);
    expect(withoutCrosstalk(kit, ['snare', 'ride']).crosstalk).toEqual([learned.masks[1]]);
    expect(withoutCrosstalk(EDGE_AND_RIM, ['snare']).crosstalk).toEqual([]);
  });

  it('an answer as loud as a real stroke is told and not masked', () => {
    const loud = learnCrosstalk(EDGE_AND_RIM, [
      struck(38, { note: 48, share: 1, ms: 4, percent: 60 }),
    ]);
    expect(loud.masks).toEqual([]);
    expect(loud.sentences[0]).toContain('too loud to be told from a real soft stroke');
  });

  it('says which pads were not struck hard often enough', () => {
    const few = { note: 38, strokes: struck(38).strokes.slice(0, 3) };
    expect(learnCrosstalk(EDGE_AND_RIM, [few]).notLearned).toEqual(['snare']);
    const soft = struck(38).strokes.map((stroke) => ({ ...stroke, velocity: 30 }));
    expect(learnCrosstalk(EDGE_AND_RIM, [{ note: 38, strokes: soft }]).notLearned).toEqual([
      'snare',
    ]);
  });

  it('a double trigger of the struck pad is no strike of its own', () => {
    const { strokes } = struck(38);
    const doubled = strokes.flatMap((stroke) => [
      stroke,
      { ...stroke, timeUs: stroke.timeUs + 15_000, velocity: 70 },
    ]);
    const withAnswers = doubled.flatMap((stroke) => [
      stroke,
      { timeUs: stroke.timeUs + 2000, velocity: 12, pad: 48 },
    ]);
    const found = learnCrosstalk(EDGE_AND_RIM, [{ note: 38, strokes: withAnswers }]);
    expect(found.answers[0]!.strikes).toBe(10);
    expect(found.answers[0]!.answered).toBe(10);
  });
});

/** Ten seconds of strikes on the snare at 100, the first few answered by the first tom. */
function answered(
  answers: number,
  { strikes = 4, velocity = 100, afterMs = 3, loud = 10 } = {},
): ReturnType<typeof learnCrosstalk> {
  const strokes = Array.from({ length: strikes }, (_, i) => [
    { timeUs: i * 700_000, velocity, pad: 38 },
    ...(i < answers
      ? [{ timeUs: i * 700_000 + Math.round(afterMs * 1000), velocity: loud, pad: 48 }]
      : []),
  ]).flat();
  return learnCrosstalk(EDGE_AND_RIM, [{ note: 38, strokes }]);
}

describe('the limits of what is learned', () => {
  it.each([
    ['two answers', answered(2), 1],
    ['one answer', answered(1), 0],
    ['four strikes', answered(3, { strikes: 4 }), 1],
    ['three strikes', answered(3, { strikes: 3 }), 0],
    ['strikes of 60', answered(2, { velocity: 60 }), 1],
    ['strikes of 59', answered(2, { velocity: 59 }), 0],
    ['answers after 20 ms', answered(2, { afterMs: 20 }), 1],
    ['answers after more', answered(2, { afterMs: 20.001 }), 0],
    ['answers 20 ms before', answered(2, { afterMs: -20 }), 1],
    ['answers before that', answered(2, { afterMs: -20.001 }), 0],
  ])('%s', (_, { answers }, pairs) => {
    expect(answers).toHaveLength(pairs);
  });

  it.each([
    // 2 ms are added to the longest delay and a fifth to the loudest answer, and a mask has at least the default.
    ['3 ms', { afterMs: 3 }, { withinMs: 5, upToPercent: 16 }],
    ['3.001 ms', { afterMs: 3.001 }, { withinMs: 6, upToPercent: 16 }],
    ['3.001 ms before', { afterMs: -3.001 }, { withinMs: 6, upToPercent: 16 }],
    ['13 %', { loud: 13 }, { withinMs: 5, upToPercent: 16 }],
    ['14 %', { loud: 14 }, { withinMs: 5, upToPercent: 17 }],
    ['33 %', { loud: 33 }, { withinMs: 5, upToPercent: 40 }],
    ['40 %', { loud: 40 }, { withinMs: 5, upToPercent: 40 }],
    ['41 %', { loud: 41 }, undefined],
  ])('the mask for answers of %s', (_, how, mask) => {
    const expected = mask ? [{ struck: 'snare', answers: 'tom 1', ...mask }] : [];
    expect(answered(2, how).masks).toEqual(expected);
  });
});
