import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/match/plan';
import { cycleSpan, passageSpan } from '../../src/match/plan';
import { notesOfCycles, notesOfPassage, timedNotes } from '../../src/match/timed-notes';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { mixedNumber } from '../../src/time/beats';
import { steadyTempo, tempoMap } from '../../src/time/tempo';
import { beats } from '../../src/time/beats';
import { arbitraryPhrase } from '../phrase/arbitrary-phrase';

const phrase = (file: object) => {
  const checked = checkPhrase({
    title: 'Tide table',
    meter: '4/4',
    tempoBpm: 60,
    subdivision: 4,
    grouping: 'R L K',
    layers: [{ name: 'Sticking' }],
    ...file,
  });
  if (!checked.ok) throw new Error(checked.errors[0]!.message);
  return checked.value;
};

const PICKED_UP = [
  { name: 'Sticking' },
  { name: 'Pickup', changes: [{ pickup: [{ partialsBefore: 1, limb: 'L' }] }] },
];
const TWO_PASSAGES = [
  { fromBar: 1, layer: 1 },
  { fromBar: 3, layer: 2 },
];

const plan = (file: object, rest: Partial<Plan> = {}): Plan => ({
  phrase: phrase(file),
  passages: [{ fromBar: 1, layer: 1 }],
  tempo: steadyTempo(60),
  windows: {},
  ...rest,
});

const rows = (p: Plan, endUs: number) =>
  timedNotes(p, endUs).map(
    ({ note, timeUs, layer }) =>
      `${timeUs / 1000} ${layer} ${note.bar}:${mixedNumber(note.beat)} ${note.cycle}.${note.position} ${note.limb}`,
  );

describe('notes with a tempo applied', () => {
  it('repeats the cycle until the end asked for, the end included', () => {
    expect(rows(plan({}), 1_000_000)).toEqual([
      '0 1 1:1 1.1 R',
      '250 1 1:1 1/4 1.2 L',
      '500 1 1:1 1/2 1.3 K',
      '750 1 1:1 3/4 2.1 R',
      '1000 1 1:2 2.2 L',
    ]);
  });

  it('changes tempo where the plan says and keeps what was before', () => {
    const tempo = tempoMap([
      { fromBeat: beats(0), bpm: 60 },
      { fromBeat: beats(3, 4), bpm: 120 },
    ]);
    expect(timedNotes(plan({}, { tempo }), 1_000_000).map((due) => due.timeUs)).toEqual([
      0, 250_000, 500_000, 750_000, 875_000, 1_000_000,
    ]);
  });

  it('begins the next layer on its bar line, its pickup in place of the last partials', () => {
    const layered = plan(
      {
        meter: '2/4',
        cycle: 4,
        grouping: 'R L R L',
        layers: [
          { name: 'Sticking' },
          { name: 'Pickup', changes: [{ pickup: [{ partialsBefore: 1, limb: 'K' }] }] },
        ],
      },
      {
        passages: [
          { fromBar: 1, layer: 1 },
          { fromBar: 2, layer: 2 },
        ],
      },
    );
    expect(rows(layered, 2_250_000).slice(5)).toEqual([
      '1250 1 1:2 1/4 2.2 L',
      '1500 1 1:2 1/2 2.3 R',
      '1750 2 1:2 3/4 0.-1 K',
      '2000 2 2:1 1.1 R',
      '2250 2 2:1 1/4 1.2 L',
    ]);
  });

  it('puts grace notes 30 ms a step ahead, closer when the partials are short', () => {
    const drag = { grouping: 'llR L' };
    expect(timedNotes(plan(drag), 0).map((due) => due.timeUs)).toEqual([-60_000, -30_000, 0]);
    const quick = plan(drag, { tempo: steadyTempo(300) });
    expect(timedNotes(quick, 0).map((due) => due.timeUs)).toEqual([-25_000, -12_500, 0]);
  });

  it.each([
    [439_999, [-60_000, -30_000, 0, 250_000]],
    [440_000, [-60_000, -30_000, 0, 250_000, 440_000]],
    [470_000, [-60_000, -30_000, 0, 250_000, 440_000, 470_000]],
  ])('up to %i µs the drag of the cycle after is there as far as it is due', (endUs, times) => {
    expect(timedNotes(plan({ grouping: 'llR L' }), endUs).map((due) => due.timeUs)).toEqual(times);
  });

  it('keeps in time order where a drag comes before the last notes of the layer before', () => {
    const changing = plan(
      {
        grouping: 'R L',
        layers: [
          { name: 'Quick', changes: [{ subdivision: 12 }] },
          {
            name: 'Drags',
            changes: [{ subdivision: 1 }, { where: { limb: 'R' }, set: { grace: 'drag' } }],
          },
        ],
      },
      {
        tempo: steadyTempo(120),
        passages: [
          { fromBar: 1, layer: 1 },
          { fromBar: 2, layer: 2 },
        ],
      },
    );
    const times = timedNotes(changing, 2_000_000).map((due) => due.timeUs);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(times.slice(-4)).toEqual([1_940_000, 1_958_333, 1_970_000, 2_000_000]);
  });

  it('under swing a grace note keeps within the shorter partial', () => {
    // At 300 bpm an eighth is 100 ms; at 2:1 the shorter one is 66.7 ms, a quarter of it 16.7 ms.
    const drag = { grouping: 'llR L', subdivision: 2 };
    const straight = plan(drag, { tempo: steadyTempo(300) });
    expect(timedNotes(straight, 0).map((due) => due.timeUs)).toEqual([-50_000, -25_000, 0]);
    const swung = plan({ ...drag, swing: '2:1' }, { tempo: steadyTempo(300) });
    expect(timedNotes(swung, 0).map((due) => due.timeUs)).toEqual([-33_334, -16_667, 0]);
  });

  it('takes reach and tolerance from the partial, or as the player set them', () => {
    const [first] = timedNotes(plan({ subdivision: 12 }), 0);
    expect([first!.reachUs, first!.toleranceUs]).toEqual([83_333, 27_778]);
    const [set] = timedNotes(plan({}, { windows: { reachMs: 80, toleranceMs: 50 } }), 0);
    expect([set!.reachUs, set!.toleranceUs]).toEqual([80_000, 50_000]);
  });

  it('lawCycleByCycle: whole and cycle by cycle give the same notes, in time order', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), fc.integer({ min: 30, max: 300 }), (any, bpm) => {
        const one: Plan = {
          phrase: any,
          passages: [{ fromBar: 1, layer: any.layers.length }],
          tempo: steadyTempo(bpm),
          windows: {},
        };
        const passage = passageSpan(one, 0);
        const live = [1, 2, 3].flatMap((cycle) => notesOfCycles(one, passage, cycle, 1));
        const until = one.tempo.usAt(cycleSpan(passage, 4)!.from) - 70_000;
        const early = live.filter((due) => due.timeUs <= until);
        expect(timedNotes(one, until)).toEqual(early);
        for (let i = 1; i < live.length; i++)
          expect(live[i]!.timeUs).toBeGreaterThanOrEqual(live[i - 1]!.timeUs);
      }),
    );
  });

  it('lawCyclesLeftOut: what lies before and after is left out, cycle by cycle, and the rest is as in the whole', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('llR L K', 'R', 'R - L'),
        fc.nat(40),
        fc.integer({ min: -2, max: 40 }),
        (grouping, before, after) => {
          const one = plan({ grouping, layers: PICKED_UP }, { passages: TWO_PASSAGES });
          const some = notesOfPassage(one, 1, {
            isBefore: ({ to }) => to.compare(before) < 0,
            isAfter: ({ from }) => from.compare(after) > 0,
          });
          const all = notesOfPassage(one, 1, { isAfter: ({ from }) => from.compare(100) > 0 });
          const passage = passageSpan(one, 1);
          const within = all.filter(({ note: { cycle } }) => {
            // The pickup comes with the first cycle, which is there whatever comes after.
            const { from, to } = cycleSpan(passage, Math.max(1, cycle))!;
            return to.compare(before) >= 0 && (cycle <= 1 || from.compare(after) <= 0);
          });
          expect(some).toEqual(within);
        },
      ),
    );
  });
});
