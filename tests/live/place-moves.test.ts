import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { slipsIn } from '../../src/coach/place/slips';
import type { Stroke } from '../../src/kit/stroke';
import { LiveTimeline } from '../../src/live/live-timeline';
import { matchTake } from '../../src/match/match-take';
import type { Plan } from '../../src/match/plan';
import { timedNotes } from '../../src/match/timed-notes';
import type { TimedNote } from '../../src/match/timed-note';
import { exerciseOf } from '../../src/phrase/exercise/exercise';
import type { Part } from '../../src/phrase/exercise/part';
import { layerStack } from '../../src/phrase/layers/layer-stack';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { gridAt } from '../../src/phrase/model/grid';
import type { Phrase } from '../../src/phrase/model/phrase';
import { judge } from '../../src/score/judge';
import { requiredLevels } from '../../src/score/required-levels';
import { beats, mixedNumber } from '../../src/time/beats';
import { steadyTempo } from '../../src/time/tempo';
import { arbitraryPhrase } from '../phrase/arbitrary-phrase';
import { libraryPhrases } from '../phrase/library-phrases';
import { layeredPhrase, phraseOf } from '../phrase/phrase-of';
import { runCount } from '../run-count';

const LIBRARY: readonly Phrase[] = libraryPhrases().map(({ text }) => {
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  return parsed.value;
});

const begin = (phrase: Phrase, layer = 1, bpm = 60, countInBars = 1) =>
  new LiveTimeline({
    phrase,
    passages: [{ fromBar: 1, layer }],
    tempos: [{ fromBeat: beats(0), bpm }],
    windows: {},
    countInBars,
  });

/** Bar, beat, cycle, position and limb of what is due from one bar up to another. */
const rows = ({ notes }: LiveTimeline, fromBar: number, toBar: number) =>
  notes
    .filter(({ note: { bar } }) => bar >= fromBar && bar <= toBar)
    .map(
      ({ note }) =>
        `${note.bar}:${mixedNumber(note.beat)} ${note.cycle}.${note.position} ${note.limb}`,
    );

// Eighths of 2/4 at 60: half a second each, two seconds a bar, a cycle of three. A pickup of one in layer 2.
const SMALL = layeredPhrase({ grouping: 'R L K', meter: '2/4', subdivision: 2 }, [
  { pickup: [{ partialsBefore: 1, limb: 'L' }] },
]);

describe('a target that waits', () => {
  it('goes on where the player has it: one eighth late, from where the cycle after the notice begins', () => {
    const timeline = begin(SMALL);
    // As written cycles begin at 0, 1.5 and 3 s; for the player half a second later.
    const { passage, from } = timeline.waitForPlayer(1, 1_700_000);
    expect([passage, from.toFraction()]).toEqual([{ fromBar: 2, layer: 1, latePartials: 0 }, '2']);
    timeline.extendTo(9_000_000);
    expect(rows(timeline, 1, 3)).toEqual([
      '1:1 1.1 R',
      '1:1 1/2 1.2 L',
      '1:2 1.3 K',
      '1:2 1/2 2.1 R',
      '2:1 1.1 R',
      '2:1 1/2 1.2 L',
      '2:2 1.3 K',
      '2:2 1/2 2.1 R',
      '3:1 2.2 L',
      '3:1 1/2 2.3 K',
      '3:2 3.1 R',
      '3:2 1/2 3.2 L',
    ]);
  });

  it('goes on one eighth early, the last note of the cycle left out', () => {
    const timeline = begin(SMALL);
    const { passage, from } = timeline.waitForPlayer(-1, 2_000_001);
    expect([passage, from.toFraction()]).toEqual([
      { fromBar: 2, layer: 1, latePartials: 1 },
      '5/2',
    ]);
    timeline.extendTo(9_000_000);
    expect(rows(timeline, 2, 2)).toEqual([
      '2:1 2.2 L',
      '2:1 1/2 1.1 R',
      '2:2 1.2 L',
      '2:2 1/2 1.3 K',
    ]);
  });

  it.each([
    [1, 2_000_000, '2'],
    [1, 2_000_001, '7/2'],
    [-1, 1_000_000, '1'],
    [-1, 1_000_001, '5/2'],
  ])('by %i, leaves notice: asked for at %i µs at beat %s', (partials, fromUs, beat) => {
    expect(begin(SMALL).waitForPlayer(partials, fromUs).from.toFraction()).toBe(beat);
  });

  it('sounds no pickup, and a layer that was to come does so a realignment later', () => {
    const timeline = begin(SMALL, 2);
    timeline.changeLayer(1, 1_000_000);
    expect(timeline.plan.passages.at(-1)).toEqual({ fromBar: 4, layer: 1 });
    timeline.waitForPlayer(1, 1_700_000);
    expect(timeline.plan.passages).toEqual([
      { fromBar: 1, layer: 2 },
      { fromBar: 2, layer: 2, latePartials: 0 },
      { fromBar: 5, layer: 1 },
    ]);
    timeline.extendTo(9_000_000);
    expect(timeline.notes.filter(({ note }) => note.cycle === 0)).toHaveLength(1);
  });

  it('waits once for one that is asked twice', () => {
    const timeline = begin(SMALL);
    timeline.waitForPlayer(1, 1_700_000);
    timeline.waitForPlayer(1, 1_800_000);
    expect(timeline.plan.passages).toHaveLength(2);
  });

  it('goes by whole rounds where cycles differ', () => {
    // An accent on every second note of a cycle of three: two cycles are a round.
    const phrase = layeredPhrase({ grouping: 'R L K', meter: '2/4', subdivision: 2 }, [
      { accentEvery: 2 },
    ]);
    // The second cycle begins at 1.5 s, the round at 3 s.
    expect(begin(phrase, 2).waitForPlayer(1, 1_700_000).from.toFraction()).toBe('7/2');
  });

  it('swings where its notes fall', () => {
    // Eighths at 2 to 1: those off the beat are due 2/3 into it.
    const phrase = phraseOf({ grouping: 'R - - -', meter: '2/4', subdivision: 2, swing: '2:1' });
    const timeline = begin(phrase);
    const { from } = timeline.waitForPlayer(1, 1_000_000);
    timeline.extendTo(9_000_000);
    expect(from.toFraction()).toBe('5/2');
    const onsets = timeline.notes.slice(0, 4).map(({ note }) => note.onset.toFraction());
    expect(onsets).toEqual(['0', '2', '8/3', '14/3']);
  });
});

describe('a player who is brought back', () => {
  it('has a bar of click, the pickup in it, and begins again', () => {
    const timeline = begin(SMALL, 2);
    const { passage, from } = timeline.bringBack(1_700_000);
    expect([passage, from.toFraction()]).toEqual([{ fromBar: 3, layer: 2, countInBars: 1 }, '2']);
    timeline.extendTo(9_000_000);
    expect(rows(timeline, 1, 3)).toEqual([
      '1:1 1.1 R',
      '1:1 1/2 1.2 L',
      '1:2 1.3 K',
      '1:2 1/2 2.1 R',
      '2:2 1/2 0.-1 L',
      '3:1 1.1 R',
      '3:1 1/2 1.2 L',
      '3:2 1.3 K',
      '3:2 1/2 2.1 R',
    ]);
    const counted = timeline.marks.filter(({ isCountIn }) => isCountIn).map(({ bar }) => bar);
    expect([...new Set(counted)]).toEqual([0, 2]);
  });

  it.each([
    [0, 1],
    [1, 1],
    [2, 2],
  ])('with %i bars of count-in before the take: %i', (countInBars, bars) => {
    expect(begin(SMALL, 1, 60, countInBars).bringBack(0).passage.countInBars).toBe(bars);
  });

  it.each([
    [2_000_000, 2],
    [2_000_001, 3],
  ])('leaves notice: asked for at %i µs the count-in is bar %i', (fromUs, bar) => {
    expect(begin(SMALL).bringBack(fromUs).passage.fromBar - 1).toBe(bar);
  });

  it('begins with the layer that was to come', () => {
    const timeline = begin(SMALL);
    timeline.changeLayer(2, 1_000_000);
    timeline.bringBack(1_700_000);
    expect(timeline.plan.passages).toEqual([
      { fromBar: 1, layer: 1 },
      { fromBar: 3, layer: 2, countInBars: 1 },
    ]);
  });

  it('is counted in where the click would be silent', () => {
    const timeline = new LiveTimeline({
      phrase: SMALL,
      passages: [{ fromBar: 1, layer: 1 }],
      tempos: [{ fromBeat: beats(0), bpm: 60 }],
      windows: {},
      countInBars: 1,
      silentBars: { sounding: 1, silent: 3, growBy: 0, most: 3 },
    });
    timeline.bringBack(1_700_000);
    timeline.extendTo(9_000_000);
    const silent = timeline.marks.filter(({ isSilent }) => isSilent).map(({ bar }) => bar);
    expect([...new Set(silent)]).toEqual([3, 4]);
  });
});

it('a bar without a click is silent from its first partial to its last, wherever cycles begin', () => {
  const timeline = new LiveTimeline({
    phrase: SMALL,
    passages: [{ fromBar: 1, layer: 1 }],
    tempos: [{ fromBeat: beats(0), bpm: 60 }],
    windows: {},
    countInBars: 0,
    silentBars: { sounding: 1, silent: 1, growBy: 0, most: 1 },
  });
  timeline.extendTo(11_000_000);
  for (const { bar, isSilent } of timeline.marks)
    expect([bar, isSilent]).toEqual([bar, bar % 2 === 0]);
});

const practised = fc
  .record({
    phrase: fc.oneof(fc.constantFrom(...LIBRARY), arbitraryPhrase()),
    layer: fc.nat(),
    bpm: fc.integer({ min: 60, max: 200 }),
    partials: fc.integer({ min: -7, max: 7 }),
    askUs: fc.integer({ min: 0, max: 12_000_000 }),
  })
  .map((any) => ({ ...any, layer: 1 + (any.layer % any.phrase.layers.length) }))
  .filter(({ phrase, layer }) => layerStack(phrase, layer).period * phrase.cycle <= 64);

/** What a note is and the partial that it falls on, from bar 1 beat 1; grace notes beside their main note. */
const fallsOn = (phrase: Phrase, due: TimedNote, moved = 0): string => {
  const { bar, beat, limb, voice, level, graceStep } = due.note;
  const { barPartials, subdivision } = gridAt(phrase, due.layer);
  const partial = (bar - 1) * barPartials + beat.sub(1).mul(subdivision).valueOf();
  return [partial + moved, limb, voice, level, graceStep].join(' ');
};
const partialIn = (row: string) => Number(row.split(' ')[0]);
const inOrder = (list: readonly string[]) => [...list].sort();

describe('wherever the target moves', () => {
  it('lawWaitShifts: what is due is what was due, by so many partials later from there on', () => {
    fc.assert(
      fc.property(practised, ({ phrase, layer, bpm, partials, askUs }) => {
        const still = begin(phrase, layer, bpm);
        const waits = begin(phrase, layer, bpm);
        waits.extendTo(askUs + 8_000_000);
        const { from } = waits.waitForPlayer(partials, askUs);
        const endUs = waits.plan.tempo.usAt(from) + 6_000_000;
        still.extendTo(endUs + 6_000_000);
        waits.extendTo(endUs);
        const at = Math.round(from.mul(gridAt(phrase, layer).subdivision).valueOf());
        const last = Math.max(
          ...waits.notes.slice(0, -20).map((due) => partialIn(fallsOn(phrase, due))),
        );
        // What lies ahead of bar 1 is not written, and has nothing that it could be moved to.
        const isKnown = (row: string) =>
          partialIn(row) < last && (partialIn(row) < at || partialIn(row) >= partials);
        const main = still.notes.filter(({ note }) => note.cycle > 0);
        const before = still.notes.map((due) => fallsOn(phrase, due));
        const after = main.map((due) => fallsOn(phrase, due, partials));
        const due = waits.notes.map((one) => fallsOn(phrase, one));
        expect(inOrder(due.filter(isKnown))).toEqual(
          inOrder([
            ...before.filter((row) => partialIn(row) < at && isKnown(row)),
            ...after.filter((row) => partialIn(row) >= at && isKnown(row)),
          ]),
        );
      }),
      { numRuns: runCount(100, 10) },
    );
  });

  it('lawReturnRepeats: after the count-in all is as from bar 1 on, and up to it as it was', () => {
    fc.assert(
      fc.property(practised, ({ phrase, layer, bpm, askUs }) => {
        const still = begin(phrase, layer, bpm);
        const back = begin(phrase, layer, bpm);
        back.extendTo(askUs + 8_000_000);
        const { from, passage } = back.bringBack(askUs);
        const { tempo } = back.plan;
        const fromUs = tempo.usAt(from);
        back.extendTo(fromUs + 12_000_000);
        still.extendTo(fromUs + 18_000_000);
        const bars = passage.fromBar - 1;
        const row = ({ note }: TimedNote, later = 0) =>
          `${note.bar + later}:${mixedNumber(note.beat)} ${note.cycle}.${note.position} ${note.limb} ${note.graceStep}`;
        const before = back.notes.filter((due) => due.passage === 0);
        expect(before).toEqual(still.notes.slice(0, before.length));
        const pickup = still.notes.find(({ note }) => note.cycle === 0)?.note.onset ?? beats(0);
        const firstOfNext = beats(bars * phrase.meter.beatsPerBar).add(pickup);
        const end = firstOfNext.lt(from) ? firstOfNext : from;
        expect(still.notes[before.length]?.note.onset.gte(end) ?? true).toBe(true);
        const after = back.notes.filter((due) => due.passage === 1);
        expect(after.map((due) => row(due))).toEqual(
          still.notes.slice(0, after.length).map((due) => row(due, bars)),
        );
        for (const { note } of after) expect(note.onset.gte(end)).toBe(true);
      }),
      { numRuns: runCount(100, 10) },
    );
  });

  it('lawExerciseMoves: what is asked and what the app plays beside it move together', () => {
    const exercises = fc.record({
      phrase: fc.constantFrom(...LIBRARY),
      part: fc.constantFrom<Part>({ limb: 'L' }, { limb: 'R', allBut: true }),
      answerCycles: fc.option(fc.integer({ min: 1, max: 2 }), { nil: undefined }),
      partials: fc.integer({ min: -3, max: 3 }),
      askUs: fc.integer({ min: 0, max: 9_000_000 }),
      isBack: fc.boolean(),
    });
    fc.assert(
      fc.property(exercises, ({ phrase, part, answerCycles, partials, askUs, isBack }) => {
        const made = exerciseOf(phrase, phrase.layers.length, { part, answerCycles });
        fc.pre(made.ok);
        const { phrase: asked, whole } = made.value;
        const layer = asked.layers.length;
        const timelineOf = (of: Phrase, beside?: Phrase) => {
          const timeline = new LiveTimeline({
            phrase: of,
            whole: beside,
            passages: [{ fromBar: 1, layer: of.layers.length }],
            tempos: [{ fromBeat: beats(0), bpm: 90 }],
            windows: {},
            countInBars: 1,
          });
          timeline.extendTo(askUs + 8_000_000);
          return timeline;
        };
        const exercise = timelineOf(asked, whole);
        if (isBack) exercise.bringBack(askUs);
        else exercise.waitForPlayer(partials, askUs);
        exercise.extendTo(askUs + 16_000_000);
        const [, passage] = exercise.plan.passages;
        // By another way: the whole, played to the same passages by itself.
        const plan: Plan = {
          phrase: whole!,
          passages: [
            { fromBar: 1, layer: whole!.layers.length },
            { ...passage!, layer: whole!.layers.length },
          ],
          tempo: exercise.plan.tempo,
          windows: {},
        };
        const endUs = exercise.cycles.at(-1)!.startUs - 100_000;
        const row = ({ timeUs, note }: TimedNote) => `${timeUs} ${note.voice} ${note.limb}`;
        const upToEnd = ({ timeUs }: TimedNote) => timeUs <= endUs;
        const sounding = [...exercise.notes, ...exercise.accompaniment].filter(upToEnd);
        expect(inOrder(sounding.map(row))).toEqual(inOrder(timedNotes(plan, endUs).map(row)));
        expect(exercise.plan.passages.every((one) => one.layer === layer)).toBe(true);
      }),
      { numRuns: runCount(50, 10) },
    );
  });

  it('lawNothingTwice: no limb strikes twice at once, and onsets are exact', () => {
    fc.assert(
      fc.property(practised, ({ phrase, layer, bpm, partials, askUs }) => {
        const timeline = begin(phrase, layer, bpm);
        timeline.extendTo(askUs + 8_000_000);
        timeline.waitForPlayer(partials, askUs);
        timeline.bringBack(askUs + 4_000_000);
        timeline.waitForPlayer(-partials, askUs + 9_000_000);
        timeline.extendTo(askUs + 20_000_000);
        const struck = timeline.notes
          .filter(({ note }) => note.graceStep === 0)
          .map(({ note }) => `${note.onset.toFraction()} ${note.limb}`);
        const seen = new Set<string>();
        expect(struck.filter((key) => seen.size === seen.add(key).size)).toEqual([]);
        const { subdivision, swing } = gridAt(phrase, layer);
        if (swing !== undefined) return;
        const isExact = ({ note: { bar, beat, onset } }: TimedNote) =>
          onset.equals(
            beats((bar - 1) * phrase.meter.beatsPerBar)
              .add(beat)
              .sub(1),
          ) && Number(onset.d) <= subdivision;
        expect(timeline.notes.filter((due) => !isExact(due))).toEqual([]);
      }),
      { numRuns: runCount(100, 10) },
    );
  });
});

const BOUNDARIES = { ghostMax: 50, accentMin: 95 };
const VELOCITIES = { ghost: 28, tap: 72, accent: 112 };
const strokeOf = ({ note, timeUs }: TimedNote, lateUs = 0): Stroke => ({
  timeUs: Math.round(timeUs + lateUs),
  voice: note.voice,
  velocity: VELOCITIES[note.level],
  pad: 38,
});
const judgementOf = (plan: Plan, strokes: readonly Stroke[], endUs: number) => {
  const notes = timedNotes(plan, endUs);
  return judge(notes, strokes, matchTake(notes, strokes), () => BOUNDARIES, requiredLevels(plan));
};

/** Layers of the library without swing or grace notes, whose slip by one is told. */
const CASES = LIBRARY.flatMap((phrase) =>
  phrase.layers.map((_, i) => ({ phrase, layer: i + 1, name: `${phrase.title}, layer ${i + 1}` })),
).filter(({ phrase, layer }) => gridAt(phrase, layer).swing === undefined);

const END_US = 60_000_000;

describe.each([1, -1, 2, -3])('a player who slips by %i', (partials) => {
  const slippedOf = ({ phrase, layer }: (typeof CASES)[number]) => {
    const plan: Plan = {
      phrase,
      passages: [{ fromBar: 1, layer }],
      tempo: steadyTempo(phrase.tempoBpm),
      windows: {},
    };
    const lateUs = (partials * 60e6) / phrase.tempoBpm / gridAt(phrase, layer).subdivision;
    const notes = timedNotes(plan, END_US);
    const at = 10_000_000;
    const strokes = [
      ...notes.filter(({ timeUs }) => timeUs < at).map((due) => strokeOf(due)),
      ...notes.filter(({ timeUs }) => timeUs + lateUs >= at).map((due) => strokeOf(due, lateUs)),
    ];
    const told = slipsIn(plan, strokes, () => BOUNDARIES)[0];
    return { plan, strokes, told };
  };

  it('lawWaitFinds: once the target has waited, who goes on as before is in time, and no slip is told', () => {
    let tried = 0;
    for (const one of CASES) {
      const { strokes, told } = slippedOf(one);
      if (!told) continue;
      tried++;
      const timeline = begin(one.phrase, one.layer, one.phrase.tempoBpm);
      const { from } = timeline.waitForPlayer(told.partials, told.certainUs + 1_300_000);
      const { plan } = timeline;
      const slips = slipsIn(plan, strokes, () => BOUNDARIES);
      expect(
        slips.map(({ passage, toUs }) => [passage, toUs]),
        one.name,
      ).toEqual([[0, plan.tempo.usAt(from)]]);
      const { notes } = judgementOf(plan, strokes, END_US - 4_000_000);
      const after = notes.filter(({ due }) => due.passage === 1 && due.timeUs < END_US - 5_000_000);
      expect(after.length).toBeGreaterThan(20);
      expect([...new Set(after.map(({ verdict }) => verdict))], one.name).toEqual(['in time']);
    }
    expect(tried).toBeGreaterThan(10);
  });

  it('lawReturnFinds: after the count-in, who begins again is in place', () => {
    let tried = 0;
    for (const one of CASES) {
      const { strokes, told } = slippedOf(one);
      if (!told) continue;
      tried++;
      const timeline = begin(one.phrase, one.layer, one.phrase.tempoBpm);
      const { from } = timeline.bringBack(told.certainUs + 1_300_000);
      const { plan } = timeline;
      const fromUs = plan.tempo.usAt(from);
      const again = timedNotes(plan, END_US).filter(({ passage }) => passage === 1);
      const played = [
        ...strokes.filter(({ timeUs }) => timeUs < fromUs - 100_000),
        ...again.map((due) => strokeOf(due)),
      ];
      const slips = slipsIn(plan, played, () => BOUNDARIES);
      expect(
        slips.map(({ passage, toUs }) => [passage, toUs]),
        one.name,
      ).toEqual([[0, fromUs]]);
      const after = judgementOf(plan, played, END_US).notes.filter(({ due }) => due.passage === 1);
      expect(after.length).toBeGreaterThan(20);
      expect([...new Set(after.map(({ verdict }) => verdict))], one.name).toEqual(['in time']);
    }
    expect(tried).toBeGreaterThan(10);
  });
});
