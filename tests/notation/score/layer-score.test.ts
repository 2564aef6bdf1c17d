import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layerScore, MOST_BARS } from '../../../src/notation/score/layer-score';
import {
  eventsOf,
  STAFF_VOICES,
  type Score,
  type ScoreBar,
  type StaffVoice,
} from '../../../src/notation/score/score';
import { expand } from '../../../src/phrase/layers/expand';
import { isHand } from '../../../src/phrase/model/limb';
import { arbitraryPhrase } from '../../phrase/arbitrary-phrase';
import { layeredPhrase, phraseOf } from '../../phrase/phrase-of';
import { runCount } from '../../run-count';

const VALUES = ['4', '8', '16', '32'];

/** A voice of a bar as text: values with the limbs that strike, "3:2[…]" tuplets, bars of silence "-". */
function line(bar: ScoreBar, voice: StaffVoice): string {
  const groups = bar.voices[voice];
  if (groups.length === 0) return '-';
  return groups
    .map(({ events, tuplet }) => {
      const text = events
        .map(({ flags, dotted, notes, graces }) => {
          const value = `${VALUES[flags] ?? (flags === -1 ? '2' : '?')}${dotted ? '.' : ''}`;
          if (notes.length === 0) return `r${value}`;
          const ahead = graces.map(({ limb }) => limb.toLowerCase()).join('');
          return `${ahead}${notes.map(({ limb }) => limb).join('')}${value}`;
        })
        .join(' ');
      return tuplet ? `${tuplet.number}:${tuplet.inTimeOf}[${text}]` : text;
    })
    .join(' | ');
}
const lines = (score: Score) =>
  score.bars.map((bar) => [bar.number, line(bar, 'hands'), line(bar, 'feet')]);

describe('a layer as it is written', () => {
  it('five over sixteenths: hands hold over what the foot plays, and the feet have a voice of their own', () => {
    const score = layerScore(phraseOf({ grouping: 'R L R L K' }), 1);
    expect(score.bars).toHaveLength(5);
    expect(score.isRepeated).toBe(true);
    expect(lines(score)[0]).toEqual([
      1,
      'R16 L16 R16 L16 | r16 R16 L16 R16 | L8 R16 L16 | R16 L8 R16',
      'r4 | K4 | r16 K8. | r8 K8',
    ]);
    expect(score.bars[0]!.stickings.join(' ')).toBe('R L R L K R L R L K R L R L K R');
    expect(score.bars[0]!.counts.join(' ')).toBe('1 e & a 2 e & a 3 e & a 4 e & a');
    expect(score.brackets.slice(0, 4)).toEqual([
      { cycle: 1, from: 0, to: 5, isCut: false },
      { cycle: 2, from: 5, to: 10, isCut: false },
      { cycle: 3, from: 10, to: 15, isCut: false },
      { cycle: 4, from: 15, to: 20, isCut: false },
    ]);
  });

  it('a pickup stands in a short bar of whole beats, and does not come again', () => {
    const phrase = layeredPhrase({ grouping: 'R L' }, [
      {
        pickup: [
          { partialsBefore: 2, limb: 'R' },
          { partialsBefore: 1, limb: 'L' },
        ],
      },
    ]);
    const score = layerScore(phrase, 2, 2);
    expect(score.bars.map(({ number, partial, partials }) => [number, partial, partials])).toEqual([
      [0, -4, 4],
      [1, 0, 16],
      [2, 16, 16],
    ]);
    expect(lines(score)[0]).toEqual([0, 'r8 R16 L16', '-']);
    expect(score.bars[0]!.voices.hands[0]!.events[1]!.notes[0]).toMatchObject({
      id: 'l2-u0-p14-R',
      isNew: true,
    });
    expect(score.bars[1]!.voices.hands[0]!.events[0]!.notes[0]).toMatchObject({
      id: 'l2-b1-p0-R',
      isNew: false,
    });
  });

  it('flams and drags stand ahead of their chord, first to sound first', () => {
    const score = layerScore(phraseOf({ grouping: 'lR rrL R+K -' }), 1);
    expect(lines(score)[0]!.slice(1)).toEqual([
      'lR16 rrL16 R8 | lR16 rrL16 R8 | lR16 rrL16 R8 | lR16 rrL16 R8',
      'r8 K8 | r8 K8 | r8 K8 | r8 K8',
    ]);
    const ids = eventsOf(score.bars[0]!, 'hands').flatMap(({ graces }) =>
      graces.map(({ id }) => id),
    );
    expect(ids.slice(0, 3)).toEqual(['l1-b1-p0-R-g1', 'l1-b1-p1-L-g2', 'l1-b1-p1-L-g1']);
    expect(score.bars[0]!.stickings.slice(0, 4)).toEqual(['lR', 'rrL', 'R+K', '']);
  });

  it('is not a repeat where the accents come round later than the cycle', () => {
    const phrase = layeredPhrase({ grouping: 'R L R L' }, [{ accentEvery: 3 }]);
    expect(layerScore(phrase, 1).isRepeated).toBe(true);
    expect(layerScore(phrase, 2).isRepeated).toBe(false);
    expect(layerScore(phrase, 2, 3).isRepeated).toBe(true);
  });

  it('a cycle ahead of bar 1 and one beyond the end are cut', () => {
    const phrase = layeredPhrase({ grouping: 'R L R L L' }, [{ displace: -2 }]);
    expect(layerScore(phrase, 2, 1).brackets).toEqual([
      { cycle: 1, from: 0, to: 3, isCut: true },
      { cycle: 2, from: 3, to: 8, isCut: false },
      { cycle: 3, from: 8, to: 13, isCut: false },
      { cycle: 4, from: 13, to: 16, isCut: true },
    ]);
  });

  it('what takes longer than 64 bars to come round is cut there', () => {
    const grouping = Array.from({ length: 67 }, () => 'R').join(' ');
    expect(layerScore(phraseOf({ grouping }), 1).bars).toHaveLength(MOST_BARS);
    const shorter = Array.from({ length: 63 }, () => 'R').join(' ');
    expect(layerScore(phraseOf({ grouping: shorter }), 1).bars).toHaveLength(63);
  });

  it.each([0, -1, 1.5, NaN])('%s bars are refused', (bars) => {
    expect(() => layerScore(phraseOf({}), 1, bars)).toThrow(RangeError);
  });
});

describe('laws of a score', () => {
  const drawn = fc
    .tuple(arbitraryPhrase(), fc.integer({ min: 1, max: 5 }))
    .map(([phrase, bars]) => ({ phrase, bars, layer: phrase.layers.length }));

  it('lawNotesOfTheTarget: heads are the notes of the target, each once, where they are written', () => {
    fc.assert(
      fc.property(drawn, ({ phrase, bars, layer }) => {
        const score = layerScore(phrase, layer, bars);
        const heads = score.bars.flatMap((bar) =>
          STAFF_VOICES.flatMap((voice) =>
            eventsOf(bar, voice).flatMap(({ partial, notes, graces }) =>
              [...notes, ...graces].map(
                ({ limb, voice: sound, level }) => `${partial} ${limb} ${sound} ${level}`,
              ),
            ),
          ),
        );
        const barPartials = phrase.meter.beatsPerBar * score.subdivision;
        const due = expand(phrase, layer, { bars }).map(
          ({ bar, beat, limb, voice, level }) =>
            `${(bar - 1) * barPartials + beat.sub(1).mul(score.subdivision).valueOf()} ${limb} ${voice} ${level}`,
        );
        expect(heads.sort()).toEqual([...due].sort());
      }),
      { numRuns: runCount(100, 15) },
    );
  });

  it('lawBarsAreFull: a voice fills its bar without gap, or is silent in all of it', () => {
    fc.assert(
      fc.property(drawn, ({ phrase, bars, layer }) => {
        for (const bar of layerScore(phrase, layer, bars).bars)
          for (const voice of STAFF_VOICES) {
            const events = eventsOf(bar, voice);
            if (events.length === 0) continue;
            let at = bar.partial;
            for (const event of events) {
              expect(event.partial).toBe(at);
              at += event.partials;
            }
            expect(at).toBe(bar.partial + bar.partials);
            expect(
              events.every(({ notes }) =>
                notes.every(({ limb }) => isHand(limb) === (voice === 'hands')),
              ),
            ).toBe(true);
          }
      }),
      { numRuns: runCount(100, 15) },
    );
  });

  it('lawOneNameEach: ids are names that XML allows, each once, and the same when written with more bars', () => {
    fc.assert(
      fc.property(drawn, ({ phrase, bars, layer }) => {
        const idsOf = (score: Score) =>
          score.bars.flatMap((bar) =>
            STAFF_VOICES.flatMap((voice) =>
              eventsOf(bar, voice).flatMap((event) =>
                event.notes.length > 0
                  ? [...event.notes, ...event.graces].map(({ id }) => id)
                  : [event.id],
              ),
            ),
          );
        const ids = idsOf(layerScore(phrase, layer, bars));
        expect(new Set(ids).size).toBe(ids.length);
        expect(ids.every((id) => /^[A-Za-z_][\w.-]*$/.test(id))).toBe(true);
        const more = new Set(idsOf(layerScore(phrase, layer, bars + 1)));
        const heads = ids.filter((id) => /-[RLKF](-g\d)?$/.test(id));
        expect(heads.every((id) => more.has(id))).toBe(true);
      }),
      { numRuns: runCount(100, 10) },
    );
  });

  it('lawCyclesMeet: brackets follow each other to the end', () => {
    fc.assert(
      fc.property(drawn, ({ phrase, bars, layer }) => {
        const { brackets, bars: written } = layerScore(phrase, layer, bars);
        const end = written.at(-1)!.partial + written.at(-1)!.partials;
        brackets.forEach(({ from, to }, i) => {
          if (i > 0) expect(from).toBe(brackets[i - 1]!.to);
          expect(to).toBeGreaterThan(from);
        });
        if (brackets.length > 0) expect(brackets.at(-1)!.to).toBe(end);
      }),
      { numRuns: runCount(100, 10) },
    );
  });
});
