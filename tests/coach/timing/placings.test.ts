import { describe, expect, it } from 'vitest';
import { timingFindings } from '../../../src/coach/timing/timing-findings';
import type { TimedNote } from '../../../src/match/timed-note';
import { later, judged } from '../practice-take';
import { perfectTake } from '../faults/perfect-take';

/** What is told of a take without scatter in which some notes lie so many ms off. */
function told(ms: number, is: (due: TimedNote) => boolean, file?: unknown): string[] {
  const { dues, strokes, evidenceIn } = perfectTake(16, file === undefined ? 2 : 1, file);
  const played = strokes
    .map((stroke, i) => (is(dues[i]!) ? later(stroke, ms) : stroke))
    .sort((a, b) => a.timeUs - b.timeUs);
  return timingFindings(evidenceIn(judged(dues, played))).map(({ text }) => text);
}

const file = (grouping: string, subdivision: number, set: object = { voice: 'ride' }) => ({
  title: 'Sluice',
  meter: '4/4',
  tempoBpm: 90,
  subdivision,
  grouping,
  layers: [{ name: 'Sticking', changes: [{ where: { limb: 'R' }, set }] }],
});
const ofLimb =
  (limb: string) =>
  ({ note }: TimedNote) =>
    note.limb === limb;

describe('notes apart from the rest', () => {
  // Friberg & Sundberg 1995, JASA 98:2524-2531: 6 ms below 240 ms between strokes.
  it('are told from what is just noticeable on', () => {
    const isThird = ({ note }: TimedNote) => note.position % 4 === 3;
    expect(told(5.999, isThird)).toEqual([]);
    expect(told(6, isThird)).toEqual(['Third sixteenths 6 ms late.']);
    expect(told(-6, isThird)).toEqual(['Third sixteenths 6 ms early.']);
  });

  // Fujii et al. 2011, Music Perception 28:491-503: limbs of professionals 8 to 9 ms apart.
  it('are told from 10 ms on where they are all of a limb, and as a fact', () => {
    expect(told(9.999, ofLimb('L'))).toEqual([]);
    expect(told(10, ofLimb('L'))).toEqual(['Left hand 10 ms late, steadily.']);
    expect(told(-9.999, ofLimb('L'))).toEqual([]);
    expect(told(-10, ofLimb('L'))).toEqual(['Left hand 10 ms early, steadily.']);
  });

  it('so, too, where that limb has a partial of the beat to itself', () => {
    const alone = file('R L L', 3);
    expect(told(9.999, ofLimb('R'), alone)).toEqual([]);
    expect(told(-10, ofLimb('R'), alone)).toEqual(['Strokes on the beat 10 ms early, steadily.']);
    // Both of the left hand's partials are the left hand.
    expect(told(9.999, ofLimb('L'), alone)).toEqual([]);
    expect(told(14, ofLimb('L'), alone)).toEqual(['Left hand 14 ms late, steadily.']);
    const foot = file('R L L K', 4);
    expect(told(9.999, ofLimb('K'), foot)).toEqual([]);
    expect(told(10, ofLimb('K'), foot)).toEqual(['Last sixteenths 10 ms late, steadily.']);
  });

  it('so, too, where two limbs strike at once', () => {
    const isUnison = ({ note }: TimedNote) => note.limb === 'K' && note.position !== 7;
    expect(told(9.999, isUnison)).toEqual([]);
    expect(told(10, isUnison)).toEqual(['Unisons with right hand: right foot 10 ms late.']);
  });

  // The same: hi-hat ahead of the pulse by up to 26 ms.
  it('are told of the hi-hat ahead of the rest from more than 26 ms on', () => {
    const hats = file('R+K R R+L R', 2, { voice: 'hi-hat closed' });
    expect(told(-26, ofLimb('R'), hats)).toEqual([]);
    expect(told(-26.001, ofLimb('R'), hats)).toEqual(['Right hand 26 ms early, steadily.']);
    expect(told(26, ofLimb('R'), hats)).toEqual(['Right hand 26 ms late, steadily.']);
  });
});

describe('all strokes apart from the click', () => {
  const everyBar = (msIn: (bar: number) => number) => {
    const { dues, strokes, evidenceIn } = perfectTake(64);
    const played = strokes.map((stroke, i) => later(stroke, msIn(dues[i]!.note.bar)));
    return timingFindings(evidenceIn(judged(dues, played))).map(({ code }) => code);
  };

  it('are told where they are on the same side in three of four bars', () => {
    // Beyond 17.5 ms, half of the tolerance, on average: 0.75 · 30 − 0.25 · 10 = 20 and 0.73 · 32 − 0.27 · 10 = 20.9.
    expect(everyBar((bar) => (bar % 4 === 0 ? -10 : 30))).toContain('all strokes off');
    expect(everyBar((bar) => (bar % 4 === 0 || bar === 1 ? -10 : 32))).not.toContain(
      'all strokes off',
    );
  });
});
