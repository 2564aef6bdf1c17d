import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LiveTimeline } from '../../src/live/live-timeline';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { countBetween, type SpokenCount } from '../../src/practice/count-between';
import { COUNT_FOLLOWS } from '../../src/sound/count-choice';
import { COUNT_WORDS, type SoundEvent } from '../../src/sound/sound-event';
import { countWordSound } from '../../src/sound/synth/count-words';
import { beats } from '../../src/time/beats';
import { runCount } from '../run-count';

const RATE = 48_000;
const US = 1e6;

/** How long a word sounds before its beat and after it, µs, by its own samples. */
const lengths = new Map(
  COUNT_WORDS.flatMap((word) =>
    [false, true].map((isShort) => {
      const { samples, beatSeconds } = countWordSound(word, isShort, RATE);
      const beforeUs = beatSeconds * US;
      return [
        `${word} ${isShort}`,
        { beforeUs, afterUs: (samples.length / RATE) * US - beforeUs },
      ] as const;
    }),
  ),
);

interface Counted {
  readonly meter: string;
  readonly subdivision: number;
  readonly cycle: number;
  readonly bpm: number;
  readonly nextBpm: number;
  readonly move: 'none' | 'wait' | 'back';
  readonly count: SpokenCount;
}

const arbitraryCounted: fc.Arbitrary<Counted> = fc.record({
  meter: fc.constantFrom('4/4', '3/4', '7/8', '2/8', '6/8', '12/8', '5/4'),
  subdivision: fc.integer({ min: 1, max: 8 }),
  cycle: fc.integer({ min: 1, max: 17 }),
  bpm: fc.integer({ min: 30, max: 600 }),
  nextBpm: fc.integer({ min: 30, max: 600 }),
  move: fc.constantFrom('none', 'wait', 'back'),
  count: fc.record({
    follows: fc.constantFrom(...COUNT_FOLLOWS.filter((one) => one !== 'off')),
    syllables: fc.boolean(),
    volume: fc.constant(1),
  }),
});

/** Some bars of it, with another tempo and a move of the target in the midst. */
function timelineOf({ meter, subdivision, cycle, bpm, nextBpm, move }: Counted): LiveTimeline {
  const phrase = checkPhrase({
    title: 'Bell buoy',
    meter,
    tempoBpm: 60,
    subdivision,
    cycle,
    grouping: 'R',
    layers: [{ name: 'Sticking' }],
  });
  if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
  const timeline = new LiveTimeline({
    phrase: phrase.value,
    passages: [{ fromBar: 1, layer: 1 }],
    tempos: [{ fromBeat: beats(0), bpm }],
    windows: {},
    countInBars: 1,
  });
  timeline.extendTo(3 * US);
  timeline.changeTempo(nextBpm, 2 * US);
  if (move === 'wait') timeline.waitForPlayer(1, 4 * US);
  if (move === 'back') timeline.bringBack(4 * US);
  timeline.extendTo(16 * US);
  return timeline;
}

const TO_US = 12 * US;
const wordsOf = (counted: Counted, timeline = timelineOf(counted)) =>
  countBetween(timeline, counted.count, timeline.startUs, TO_US);
const wordAndTime = (event: SoundEvent) =>
  event.kind === 'count' ? `${event.word}${event.isShort ? '.' : ''} at ${event.timeUs}` : '';

describe('a spoken count', () => {
  it('lawNoWordOverlapsTheNext', () => {
    fc.assert(
      fc.property(arbitraryCounted, (counted) => {
        let endUs = -Infinity;
        for (const event of wordsOf(counted)) {
          if (event.kind !== 'count') throw new Error(event.kind);
          const { beforeUs, afterUs } = lengths.get(`${event.word} ${event.isShort}`)!;
          // To a sample at either side.
          expect(event.timeUs - beforeUs + 42, wordAndTime(event)).toBeGreaterThanOrEqual(endUs);
          endUs = event.timeUs + afterUs;
        }
      }),
      { numRuns: runCount(400) },
    );
  });

  it('lawCountedInPiecesIsTheSame', () => {
    fc.assert(
      fc.property(arbitraryCounted, fc.integer({ min: 20, max: 3000 }), (counted, pieceMs) => {
        const timeline = timelineOf(counted);
        const pieces: string[] = [];
        for (let us = timeline.startUs; us < TO_US; us += pieceMs * 1000) {
          const toUs = Math.min(TO_US, us + pieceMs * 1000);
          pieces.push(...countBetween(timeline, counted.count, us, toUs).map(wordAndTime));
        }
        expect(pieces).toEqual(wordsOf(counted, timeline).map(wordAndTime));
      }),
      { numRuns: runCount(100) },
    );
  });

  it.each([
    // Sixteenths in 4/4: 140 ms at 107.
    [107, '1. e. &. a. 2. e. &. a.'],
    [108, '1 2 3 4'],
    // Beats of 300 ms at 200.
    [200, '1 2 3 4'],
    [201, '1. 2. 3. 4.'],
  ])('sixteenths at %i: %s', (bpm, expected) => {
    const counted: Counted = {
      meter: '4/4',
      subdivision: 4,
      cycle: 16,
      bpm,
      nextBpm: bpm,
      move: 'none',
      count: { follows: 'meter', syllables: true, volume: 1 },
    };
    const timeline = timelineOf(counted);
    const drawn = countBetween(timeline, counted.count, 0, TO_US).map((event) =>
      wordAndTime(event).replace(/ at .*/, ''),
    );
    expect(drawn.slice(0, expected.split(' ').length).join(' ')).toBe(expected);
  });
});
