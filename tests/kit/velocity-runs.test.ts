import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { readStrokes } from '../../src/kit/read-strokes';
import { longEnough, VelocityRuns } from '../../src/kit/velocity-runs';
import { readMidiFile } from '../../src/take/read-midi-file';
import { runCount } from '../run-count';
import { HUMAN_TAKES, humanTake } from '../take/human-takes';

const SNARE = 38;
const TOM = 45;
type Struck = readonly [pad: number, velocity: number];

/** So many strokes of a pad at one velocity. */
const times = (count: number, pad: number, velocity: number): Struck[] =>
  Array.from({ length: count }, () => [pad, velocity]);

/** Of each stroke, whether it has a level at the end. */
function levelsOf(struck: readonly Struck[]): boolean[] {
  const runs = new VelocityRuns();
  const isFirst = struck.map(([pad, velocity]) => runs.add(pad, velocity));
  return struck.map(([pad], i) => !(isFirst[i]! && runs.isOfOneVelocity(pad)));
}

const withoutLevel = (struck: readonly Struck[]) =>
  levelsOf(struck).filter((hasLevel) => !hasLevel).length;

describe('a pad that sends one velocity', () => {
  it.each([
    ['11 strokes at 100', times(11, SNARE, 100), 0],
    ['12 strokes at 100', times(12, SNARE, 100), 12],
    ['11 strokes at 100 and one at 101', [...times(11, SNARE, 100), [SNARE, 101]], 0],
    ['a stroke at 101 and 12 at 100', [[SNARE, 101], ...times(12, SNARE, 100)], 0],
    ['12 at 100, then others', [...times(12, SNARE, 100), [SNARE, 101], [SNARE, 100]], 12],
    ['47 at the top', times(47, SNARE, 127), 0],
    ['48 at the top', times(48, SNARE, 127), 48],
    ['12 just below the top', times(12, SNARE, 126), 12],
    ['5 as another pad sends', [...times(12, SNARE, 64), ...times(5, TOM, 64)], 12],
    ['6 as another pad sends', [...times(12, SNARE, 64), ...times(6, TOM, 64)], 18],
    ['6, before the other is known', [...times(6, TOM, 64), ...times(12, SNARE, 64)], 18],
    ['6 at another velocity', [...times(12, SNARE, 64), ...times(6, TOM, 65)], 12],
    [
      '6 and another velocity, before the other is known',
      [...times(6, TOM, 64), [TOM, 70], ...times(12, SNARE, 64)],
      12,
    ],
  ] satisfies [string, Struck[], number][])('%s', (_, struck, expected) => {
    expect(withoutLevel(struck)).toBe(expected);
  });

  it('lawStaysWithout: a stroke without a level keeps having none, whatever comes', () => {
    const pad = fc.constantFrom(SNARE, TOM);
    const few = fc.tuple(pad, fc.constantFrom(64, 64, 64, 64, 64, 64, 64, 65, 127));
    const many = fc.tuple(pad, fc.integer({ min: 1, max: 20 })).map(([on, n]) => times(n, on, 64));
    const played = fc
      .array(
        fc.oneof(
          many,
          few.map((one): Struck[] => [one]),
        ),
        { maxLength: 12 },
      )
      .map((parts) => parts.flat());
    fc.assert(
      fc.property(played, fc.nat(), (struck, at) => {
        const before = levelsOf(struck.slice(0, at % (struck.length + 1)));
        const after = levelsOf(struck);
        before.forEach((had, i) => {
          if (!had) expect(after[i]).toBe(false);
        });
      }),
      { numRuns: runCount(300) },
    );
  });

  it('lawBySides: it is told of a pad exactly where its strokes begin with one velocity for long enough', () => {
    const velocity = fc.constantFrom(20, 100, 127);
    const played = fc.array(fc.tuple(velocity, fc.integer({ min: 1, max: 60 })), { maxLength: 4 });
    fc.assert(
      fc.property(played, (parts) => {
        const struck = parts.flatMap(([at, count]) => times(count, SNARE, at));
        // By the text of the velocities: what stands before the first that differs.
        const text = struck.map(([, at]) => `<${at}>`).join('');
        const [first] = struck;
        const begins = first ? text.match(new RegExp(`^(<${first[1]}>)*`))![0] : '';
        const length = first ? begins.length / `<${first[1]}>`.length : 0;
        const expected = first && length >= (first[1] < 127 ? 12 : 48) ? length : 0;
        expect(withoutLevel(struck)).toBe(expected);
      }),
      { numRuns: runCount(300) },
    );
  });
});

/** Ten performances of professional drummers: Groove MIDI Dataset, Gillick et al. 2019, CC BY 4.0. */
describe('what a person plays has levels', () => {
  const played = HUMAN_TAKES.map((name) => {
    const file = readMidiFile(humanTake(name));
    if (!file.ok) throw new Error(file.errors[0]!.message);
    return file.value.messages;
  });
  /** The pedal, which is asked for no level. */
  const PEDAL = 44;

  it('in every stroke of ten real performances', () => {
    const without = played.map((messages) => readStrokes(messages, EDGE_AND_RIM).withoutLevel.size);
    expect(without).toEqual(HUMAN_TAKES.map(() => 0));
  });

  it('with no run of one velocity half as long as it takes, wherever one begins', () => {
    let [longest, longestAtTop] = [0, 0];
    for (const messages of played) {
      const lengths = new Map<number, { velocity: number; length: number }>();
      for (const { pad, velocity } of readStrokes(messages, EDGE_AND_RIM).strokes) {
        if (pad === PEDAL) continue;
        const before = lengths.get(pad);
        const length = before?.velocity === velocity ? before.length + 1 : 1;
        lengths.set(pad, { velocity, length });
        if (velocity < 127) longest = Math.max(longest, length);
        else longestAtTop = Math.max(longestAtTop, length);
      }
    }
    expect([longest, longestAtTop]).toEqual([6, 10]);
    expect(longEnough(100)).toBe(2 * longest);
    expect(longEnough(127)).toBeGreaterThan(4 * longestAtTop);
  });
});
