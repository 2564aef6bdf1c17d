import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { slipsInTake } from '../../src/coach/place/slips';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { KitDecoder } from '../../src/kit/kit-decoder';
import { passageSpan } from '../../src/match/plan';
import { timedNotes } from '../../src/match/timed-notes';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { LANE_LEVEL_VERDICTS, LANE_VERDICTS } from '../../src/live/lane-feed';
import { LiveTake } from '../../src/live/live-take';
import { LiveTimeline } from '../../src/live/live-timeline';
import { assessMessages } from '../../src/score/assess';
import { simulate } from '../../src/take/simulate';
import { beats } from '../../src/time/beats';
import { runCount } from '../run-count';
import { layeredPhrase } from '../phrase/phrase-of';

const folder = new URL('../../shared/phrases/', import.meta.url);
const library = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => {
    const parsed = parsePhrase(readFileSync(new URL(name, folder), 'utf8'));
    if (!parsed.ok) throw new Error(`${name}: ${parsed.errors[0]!.message}`);
    return parsed.value;
  });

const faults = fc.record({
  spreadMs: fc.constantFrom(0, 12, 35),
  missed: fc.constantFrom(0, 0.1),
  wrongVoices: fc.constantFrom(0, 0.1),
  extra: fc.constantFrom(0, 0.1),
  loudGhosts: fc.constantFrom(0, 0.4),
  velocitySpread: fc.constantFrom(0, 9),
  lostPlace: fc.constantFrom({ afterCycles: 1e6, slipMs: 0 }, { afterCycles: 2, slipMs: 150 }),
});

const practised = fc
  .record({
    phrase: fc.constantFrom(...library),
    layer: fc.nat(),
    bpm: fc.integer({ min: 60, max: 220 }),
    faults,
    seed: fc.nat(),
    rigMs: fc.constantFrom(0, 0, 23, -4),
  })
  .map((any) => ({ ...any, layer: 1 + (any.layer % any.phrase.layers.length) }));

const begin = (phrase: (typeof library)[number], layer: number, bpm: number) =>
  new LiveTimeline({
    phrase,
    passages: [{ fromBar: 1, layer }],
    tempos: [{ fromBeat: beats(0), bpm }],
    windows: {},
    countInBars: 1,
  });

const END_US = 12_000_000;

describe('a take while it is played', () => {
  it('lawLiveEqualsReplay: says at the end what the whole take says, in whatever order strokes came', () => {
    fc.assert(
      fc.property(practised, fc.infiniteStream(fc.nat({ max: 300_000 })), (any, delays) => {
        const timeline = begin(any.phrase, any.layer, any.bpm);
        const take = new LiveTake(timeline, GENERAL_MIDI, any.rigMs);
        timeline.extendTo(END_US + 500_000);
        take.sync();
        const played = simulate(timedNotes(timeline.plan, END_US), any.faults, any.seed);
        const delivered = played.messages
          .map((message) => ({ message, at: message.timeUs + delays.next().value }))
          .sort((a, b) => a.at - b.at);
        const decoder = new KitDecoder(GENERAL_MIDI);
        for (const { message, at } of delivered) {
          take.advance(at);
          const { status, data1, data2 } = message;
          const stampUs = message.timeUs + any.rigMs * 1000;
          take.receive(stampUs, decoder.read(stampUs, status, data1, data2));
        }
        take.advance(END_US + 1_000_000);

        const messages = delivered.map(({ message }) => message);
        const { judgement, strokes } = assessMessages(timeline.plan, messages, GENERAL_MIDI);
        const live = judgement.notes.map((_, i) => [
          LANE_VERDICTS[take.noteVerdict[i]!],
          LANE_LEVEL_VERDICTS[take.noteLevelVerdict[i]!],
          take.noteStroke[i]! < 0 ? undefined : take.strokeTimeUs[take.noteStroke[i]!],
        ]);
        expect(live).toEqual(
          judgement.notes.map((note) => [
            note.verdict,
            note.levelVerdict ?? (note.stroke ? 'not judged' : 'as written'),
            note.stroke?.timeUs,
          ]),
        );
        expect(take.countStrokes().extras).toBe(judgement.extras.length);
        const read = take.judgement(0, judgement.notes.length);
        expect(read.notes).toEqual(judgement.notes);
        take.advance(Infinity);
        expect(take.place.slips).toEqual(slipsInTake(timeline.plan, strokes, GENERAL_MIDI));
      }),
      { numRuns: runCount(80, 13) },
    );
  });
});

describe('what is due while playing', () => {
  it('lawPlanIsEnough: after changes of tempo, layer and place the plan alone gives the same notes', () => {
    const change = fc.record({
      afterUs: fc.integer({ min: 0, max: 5_000_000 }),
      what: fc.oneof(
        fc.record({ bpm: fc.integer({ min: 40, max: 240 }) }),
        fc.constant('layer' as const),
        fc.record({ waits: fc.integer({ min: -9, max: 9 }) }),
        fc.constant('back' as const),
      ),
    });
    fc.assert(
      fc.property(
        fc.constantFrom(...library),
        fc.integer({ min: 60, max: 200 }),
        fc.array(change, { maxLength: 5 }),
        (phrase, bpm, changes) => {
          const timeline = begin(phrase, 1, bpm);
          const take = new LiveTake(timeline, GENERAL_MIDI);
          timeline.extendTo(6_000_000);
          take.sync();
          let nowUs = 0;
          let layer = 1;
          for (const { afterUs, what } of changes) {
            nowUs += afterUs;
            timeline.extendTo(nowUs + 6_000_000);
            take.sync();
            const fromUs = nowUs + 1_000_000;
            const due = timeline.notes.filter(({ timeUs }) => timeUs < fromUs - 60_000);
            const change =
              what === 'layer'
                ? layer < phrase.layers.length
                  ? timeline.changeLayer(++layer, fromUs)
                  : undefined
                : what === 'back'
                  ? timeline.bringBack(fromUs)
                  : 'bpm' in what
                    ? timeline.changeTempo(what.bpm, fromUs)
                    : timeline.waitForPlayer(what.waits, fromUs);
            if (change) take.dropNotesFrom(change.firstNote);
            timeline.extendTo(nowUs + 6_000_000);
            // What was about to be played is due as it was.
            expect(timeline.notes.slice(0, due.length)).toEqual(due);
            take.sync();
          }
          // Grace notes and the pickup of the next passage are due before its first cycle.
          const last = timeline.cycles.at(-1)!;
          const { notesTo } = passageSpan(timeline.plan, last.passage);
          const laidTo = Math.min(
            last.endUs,
            notesTo ? timeline.plan.tempo.usAt(notesTo) : Infinity,
          );
          expect(laidTo).toBeGreaterThan(nowUs + 6_000_000);
          const end = laidTo - 100_000;
          const upToEnd = timeline.notes.filter((due) => due.timeUs <= end);
          expect(upToEnd).toEqual(timedNotes(timeline.plan, end));
          expect(Array.from(take.noteTimeUs.subarray(0, take.noteCount))).toEqual(
            timeline.notes.map((due) => due.timeUs),
          );
          for (let i = 1; i < timeline.marks.length; i++)
            expect(timeline.marks[i]!.timeUs).toBeGreaterThan(timeline.marks[i - 1]!.timeUs);
          for (let i = 1; i < timeline.cycles.length; i++)
            expect(timeline.cycles[i]!.startUs).toBeGreaterThanOrEqual(
              timeline.cycles[i - 1]!.endUs,
            );
        },
      ),
      { numRuns: runCount(80, 13) },
    );
  });

  it.each([
    [2_750_000, 4],
    [2_750_001, 7],
  ])('leaves the pickup of a new layer its room: from %i µs on at bar %i', (fromUs, bar) => {
    // Eighths of 2/4 at 120: a cycle of 3 realigns every 3 bars of 1 s, and the pickup is 250 ms early.
    const phrase = layeredPhrase(
      { grouping: 'R L K', meter: '2/4', subdivision: 2, tempoBpm: 120 },
      [{ pickup: [{ partialsBefore: 1, limb: 'L' }] }],
    );
    const timeline = begin(phrase, 1, 120);
    expect(timeline.changeLayer(2, fromUs).bar).toBe(bar);
    timeline.extendTo(bar * 1_000_000);
    const pickup = timeline.notes.find(({ note }) => note.cycle === 0 && note.bar === bar - 1);
    expect(pickup?.timeUs).toBe((bar - 1) * 1_000_000 - 250_000);
  });

  it('counts in with bars before bar 1 and keeps bars and beats in the ruler', () => {
    const timeline = begin(library[0]!, 1, 60);
    timeline.extendTo(0);
    expect(timeline.marks[0]).toMatchObject({ timeUs: timeline.startUs, kind: 'bar', bar: 0 });
    expect(timeline.marks.find((mark) => mark.timeUs === 0)).toMatchObject({ kind: 'bar', bar: 1 });
  });
});
