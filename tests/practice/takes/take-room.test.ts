import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import { LiveTake } from '../../../src/live/live-take';
import { LiveTimeline } from '../../../src/live/live-timeline';
import { openTake } from '../../../src/live/open-take';
import { writePhrase } from '../../../src/phrase/file/write-phrase';
import type { Kit } from '../../../src/kit/kit';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { finishedTake } from '../../../src/practice/takes/finished-take';
import { TakeRoom } from '../../../src/practice/takes/take-room';
import { TakeRun } from '../../../src/practice/takes/take-run';
import { parseTake, writeTake } from '../../../src/take/take-json';
import { beats } from '../../../src/time/beats';
import { layeredPhrase, phraseOf } from '../../phrase/phrase-of';
import { runCount } from '../../run-count';
import { handPage } from '../hand-page';

/** A kit so small that a take of it is as short a file as there is. */
const KIT = { ...EDGE_AND_RIM, title: 'Practice pad', pads: EDGE_AND_RIM.pads.slice(0, 1) };
const PAD = KIT.pads[0]!.note;

function rig(phrase: Phrase, bpm: number, kit: Kit = KIT) {
  const hand = handPage({ kit });
  const head = { phraseText: writePhrase(phrase), startedAt: '2026-05-04T18:00:00.000Z' };
  const timeline = new LiveTimeline({
    phrase,
    passages: [{ fromBar: 1, layer: 1 }],
    tempos: [{ fromBeat: beats(0), bpm }],
    windows: {},
    countInBars: 1,
  });
  const take = new LiveTake(timeline, kit);
  const { length: characters } = writeTake(finishedTake(take, head, 0));
  const ends: number[] = [];
  const run: TakeRun = new TakeRun(hand.dependencies, {
    take,
    click: () => ({ follows: 'meter', beats: 'all' }),
    reference: () => 'off',
    onCycle: () => undefined,
    room: new TakeRoom(characters),
    onFull: () => {
      ends.push(run.nowUs());
      run.stop();
    },
  });
  run.start();
  return {
    run,
    characters,
    kit: hand.useKit,
    ends,
    strike: () => hand.send(hand.page.nowMs, 0x99, PAD, 70),
    /** The pump runs again after so long, as where a machine slept. */
    sleep: (seconds: number) => {
      hand.freezeTo(hand.page.nowMs + 1000 * seconds);
    },
    tick: () => hand.page.tick?.(),
    kept: () => finishedTake(run.take, head, run.nowUs()),
  };
}

const PHRASES = [
  phraseOf({ grouping: 'R L', subdivision: 1 }),
  phraseOf({ grouping: 'llR L+K R', subdivision: 4 }),
  layeredPhrase(
    { grouping: `R${' -'.repeat(15)}` },
    [{ subdivision: 12 }],
    [{ pickup: [{ partialsBefore: 1, limb: 'L' }] }],
  ),
];
/** Nothing at all, or so many strokes; then a pause, a layer or a tempo. */
const steps = fc.array(
  fc.oneof(
    { weight: 4, arbitrary: fc.record({ strokes: fc.nat(12), seconds: fc.nat(30) }) },
    { weight: 3, arbitrary: fc.record({ sleep: fc.integer({ min: 60, max: 40_000 }) }) },
    { weight: 1, arbitrary: fc.record({ kit: fc.constantFrom(KIT, GENERAL_MIDI) }) },
    { weight: 1, arbitrary: fc.record({ layer: fc.integer({ min: 1, max: 3 }) }) },
    { weight: 1, arbitrary: fc.record({ bpm: fc.integer({ min: 30, max: 300 }) }) },
  ),
  { minLength: 1, maxLength: 8 },
);

describe('a take that is played here', () => {
  it('lawOpensAgain: is one that opens as a file, whatever was paused, slept or changed', () => {
    let full = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...PHRASES),
        fc.integer({ min: 30, max: 300 }),
        fc.constantFrom(KIT, GENERAL_MIDI),
        steps,
        (phrase, bpm, first, played) => {
          const { run, ends, strike, sleep, tick, kit, kept } = rig(phrase, bpm, first);
          const goOn = (seconds: number) => {
            sleep(seconds);
            strike();
            tick();
          };
          for (const step of played) {
            if (ends.length > 0) break;
            if ('sleep' in step) goOn(step.sleep);
            else if ('kit' in step) kit(step.kit);
            else if ('layer' in step) run.changeLayer(Math.min(step.layer, phrase.layers.length));
            else if ('bpm' in step) run.changeTempo(step.bpm);
            else for (let i = 0; i <= step.strokes; i++) goOn(step.seconds / (1 + step.strokes));
          }
          full += ends.length;
          const take = kept();
          expect(parseTake(writeTake(take))).toEqual({ ok: true, value: take });
          expect(openTake(take)).toBeDefined();
        },
      ),
      { numRuns: runCount(12) },
    );
    expect(full).toBeGreaterThan(0);
  });

  it('ends once a stroke would come too late for a file of its length, and not before', () => {
    const { run, characters, ends, strike, sleep, tick, kept } = rig(phraseOf({}), 120);
    sleep(1);
    strike();
    expect(run.take.log.count).toBe(1);
    // Three notes a character; sixteenths at 120 are eight notes a second, on partials that count as another.
    expect(characters).toBeLessThan(1024 - 12);
    const fullUs = Math.floor((3 * 1024 * 1e6) / 9);
    // Room is looked for two seconds ahead.
    sleep((fullUs - run.nowUs()) / 1e6 - 2);
    tick();
    expect(ends).toEqual([]);
    sleep(0.001);
    tick();
    expect(ends).toEqual([fullUs - 2_000_000 + 1000]);
    const take = kept();
    expect(parseTake(writeTake(take))).toEqual({ ok: true, value: take });
  });

  it('leaves out what is struck first after hours in which the machine slept', () => {
    const { run, ends, strike, sleep, tick, kept } = rig(phraseOf({}), 120);
    tick();
    sleep(1);
    strike();
    sleep(8 * 3600);
    strike();
    expect(run.take.log.count).toBe(1);
    tick();
    expect(ends).toHaveLength(1);
    expect(parseTake(writeTake(kept())).ok).toBe(true);
  });

  it('does not end by another kit, and opens as a file where that makes it a shorter one', () => {
    const { ends, strike, sleep, tick, kit, kept } = rig(phraseOf({}), 120, GENERAL_MIDI);
    sleep(600);
    strike();
    tick();
    kit(KIT);
    tick();
    expect(ends).toEqual([]);
    const take = kept();
    expect(take.kit).toEqual(KIT);
    expect(parseTake(writeTake(take))).toEqual({ ok: true, value: take });
  });

  it('goes on while something is struck', () => {
    const { ends, strike, sleep, tick } = rig(phraseOf({}), 120);
    for (let second = 0; second < 600; second += 2) {
      sleep(2);
      strike();
      tick();
    }
    expect(ends).toEqual([]);
  });
});
