import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Corrections } from '../../src/capture/corrections';
import { capture } from '../../src/capture/capture';
import { withHand, withHandsSwapped } from '../../src/capture/hand-corrections';
import type { TargetPattern } from '../../src/phrase/decompose/target-pattern';
import { isHand, type Hand, type Limb } from '../../src/phrase/model/limb';
import { phraseOf } from '../phrase/phrase-of';
import { runCount } from '../run-count';
import { playRounds, randomPlayings } from './played-rounds';
import { captureInput } from './transcribed';

const played = (grouping: string) => {
  const phrase = phraseOf({ grouping, cycle: grouping.split(' ').length });
  return captureInput(playRounds({ phrase, layer: 1, tempoBpm: 90, seed: 3 }), { clickBpm: 90 });
};
const EIGHT = played('R L R L K R L K');

const patternOf = (take: typeof EIGHT, said: Corrections = {}): TargetPattern => {
  const report = capture(take, said);
  if (!report.ok) throw new Error(report.errors[0]!.message);
  return report.value.pattern;
};
const stickingOf = (take: typeof EIGHT, said?: Corrections): string =>
  patternOf(take, said)
    .notes.map(({ limb }) => limb)
    .join(' ');
const mirrored = (limb: Limb): Limb => (limb === 'R' ? 'L' : limb === 'L' ? 'R' : limb);

describe('hands that the player says of what was captured', () => {
  it('are written down, one stroke at a time, the others as they were heard', () => {
    expect(stickingOf(EIGHT)).toBe('R L R L K R L K');
    const pattern = patternOf(EIGHT);
    const third = withHand({}, pattern, { partial: 2, voice: 'snare', hand: 'L' });
    expect(stickingOf(EIGHT, third)).toBe('R L L L K R L K');
    const also = withHand(third, pattern, { partial: 1, voice: 'snare', hand: 'R' });
    expect(stickingOf(EIGHT, also)).toBe('R R L L K R L K');
    const back = withHand(also, pattern, { partial: 2, voice: 'snare', hand: 'R' });
    expect(stickingOf(EIGHT, back)).toBe('R R R L K R L K');
  });

  it('lead, and the rest follows from it', () => {
    expect(stickingOf(EIGHT, { leads: 'L' })).toMatch(/^L R L R K/);
    expect(stickingOf(EIGHT, { leads: 'R' })).toBe(stickingOf(EIGHT));
  });

  it('make the sticking as sure as they are many', () => {
    const report = (said: Corrections) => {
      const found = capture(EIGHT, said);
      return found.ok ? found.value.findings.find(({ about }) => about === 'sticking')! : undefined;
    };
    const pattern = patternOf(EIGHT);
    let said: Corrections = {};
    for (const { partial, voice, limb } of pattern.notes)
      if (isHand(limb)) said = withHand(said, pattern, { partial, voice, hand: limb });
    expect(report({})!.sure).toBe(false);
    expect(report(said)).toMatchObject({ sure: true, confidence: 1 });
    expect(report(said)!.sentence).toBe(
      'The sticking: R L R L K R L K; 6 of 6 strokes as you said.',
    );
  });

  it('give the other hand what is struck at the same time', () => {
    const phrase = phraseOf({
      grouping: 'R+L L K',
      layers: [{ name: 'Sticking', changes: [{ where: { limb: 'R' }, set: { voice: 'crash' } }] }],
    });
    const take = captureInput(playRounds({ phrase, layer: 1, tempoBpm: 80, seed: 5 }), {
      clickBpm: 80,
    });
    const before = patternOf(take);
    const crash = before.notes.find(({ voice }) => voice === 'crash')!;
    const hand: Hand = crash.limb === 'R' ? 'L' : 'R';
    const after = patternOf(
      take,
      withHand({}, before, { partial: crash.partial, voice: 'crash', hand }),
    );
    const together = after.notes.filter(({ partial }) => partial === crash.partial);
    expect(together.find(({ voice }) => voice === 'crash')!.limb).toBe(hand);
    expect(together.map(({ limb }) => limb).toSorted()).toEqual(['L', 'R']);
  });

  it('are left alone where the cycle is counted otherwise, or no such stroke is there', () => {
    const { subdivision, cyclePartials } = patternOf(EIGHT);
    const stroke = { partial: 0, voice: 'snare', hand: 'L' } as const;
    const counted = (hands: Corrections['hands']) => stickingOf(EIGHT, { hands: hands! });
    expect(counted({ subdivision, cyclePartials, strokes: [stroke] })).toMatch(/^L L/);
    for (const hands of [
      { subdivision: subdivision + 1, cyclePartials, strokes: [stroke] },
      { subdivision, cyclePartials: cyclePartials + 1, strokes: [stroke] },
      { subdivision, cyclePartials, strokes: [{ ...stroke, voice: 'crash' as const }] },
      { subdivision, cyclePartials, strokes: [{ ...stroke, partial: 4 }] },
    ])
      expect(counted(hands)).toBe(stickingOf(EIGHT));
  });

  const takes = fc.constantFrom(
    ...randomPlayings(40, 11)
      .map((playing) => ({
        take: captureInput(playRounds(playing), {
          clickBpm: playing.tempoBpm,
          meter: playing.phrase.meterText,
        }),
      }))
      .filter(({ take }) => capture(take).ok),
  );

  it('lawSwapped: swapped, each hand has what the other had, and all else is as it was', () => {
    fc.assert(
      fc.property(takes, ({ take }) => {
        const before = patternOf(take);
        const report = capture(take, { handsSwapped: true });
        if (!report.ok) return;
        const mirror = <T extends { limb: Limb; graces?: readonly Limb[] }>(stroke: T) => ({
          ...stroke,
          limb: mirrored(stroke.limb),
        });
        const plain = <T extends { graces?: readonly Limb[] }>(stroke: T) => ({
          ...stroke,
          graces: undefined,
        });
        expect({
          ...report.value.pattern,
          notes: report.value.pattern.notes.map(plain),
        }).toEqual({
          ...before,
          notes: before.notes.map(mirror).map(plain),
          pickup: before.pickup.map(mirror),
        });
        const { handsSwapped, ...rest } = withHandsSwapped({ handsSwapped: true });
        expect([handsSwapped, rest]).toEqual([undefined, { leads: undefined, hands: undefined }]);
      }),
      { numRuns: runCount(15) },
    );
  });

  it('lawSaid: a stroke has the hand that was said, no hand strikes twice at once, nothing else is changed', () => {
    fc.assert(
      fc.property(takes, fc.nat(), fc.boolean(), ({ take }, pick, isSwapped) => {
        const before = patternOf(take);
        const byHand = before.notes.filter(({ limb }) => isHand(limb));
        if (byHand.length === 0) return;
        const { partial, voice, limb } = byHand[pick % byHand.length]!;
        const hand = mirrored(limb) as Hand;
        const one = withHand({}, before, { partial, voice, hand });
        const { handsSwapped, hands } = withHandsSwapped(one);
        const said: Corrections = isSwapped
          ? { ...(handsSwapped && { handsSwapped }), ...(hands && { hands }) }
          : one;
        const report = capture(take, said);
        if (!report.ok) return;
        const { notes } = report.value.pattern;
        const there = (some: TargetPattern['notes']) =>
          some.find((note) => note.partial === partial && note.voice === voice)!.limb;
        expect(there(notes)).toBe(isSwapped ? limb : hand);
        for (const note of notes)
          expect(
            notes.filter((other) => other.partial === note.partial && other.limb === note.limb),
          ).toHaveLength(1);
        const sounds = (some: TargetPattern['notes']) =>
          some.map((note) => [note.partial, note.voice, note.level, note.graces.length]);
        expect(sounds(notes)).toEqual(sounds(before.notes));
        const others = (some: TargetPattern['notes']) =>
          some
            .filter((note) => note.partial !== partial)
            .map((note) => (isSwapped ? mirrored(note.limb) : note.limb));
        expect(others(notes)).toEqual(
          before.notes.filter((note) => note.partial !== partial).map((note) => note.limb),
        );
      }),
      { numRuns: runCount(15) },
    );
  });

  it('lawLeads: the first stroke that one hand plays alone is of the hand that leads', () => {
    fc.assert(
      fc.property(takes, fc.constantFrom<Hand>('R', 'L'), ({ take }, leads) => {
        const report = capture(take, { leads });
        if (!report.ok) return;
        const byHand = report.value.pattern.notes.filter(({ limb }) => isHand(limb));
        const alone = byHand.find(
          (note) => byHand.filter(({ partial }) => partial === note.partial).length === 1,
        );
        expect([leads, undefined]).toContain(alone?.limb);
      }),
      { numRuns: runCount(15) },
    );
  });
});
