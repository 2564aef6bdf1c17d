import { describe, expect, it } from 'vitest';
import type { MidiStateKind } from '../../../../../src/midi/midi-problems';
import type { Player } from '../../../../../src/take/player';
import {
  cycleWords,
  feedbackWords,
} from '../../../../../src/view/screens/practise/words/feedback-words';
import { beats } from '../../../../../src/time/beats';
import { upcomingWords } from '../../../../../src/view/screens/practise/words/upcoming-words';
import { cycleStats, figures, sampleStats } from '../../../sample-stats';
import { StubInputs } from '../../../stub-inputs.svelte';

/** Inputs with that player, the kit's port in that state. */
function players(player: Player, kind: MidiStateKind = 'ready') {
  const inputs = new StubInputs();
  inputs.choosePlayer(player);
  inputs.port.kind = kind;
  return inputs;
}

describe('the sentence beside the lane', () => {
  it.each([
    ['kit', /^Press start and play after the count-in\.$/],
    ['keyboard and pads', /^Press start and play after the count-in\.$/],
    ['simulated player', /see the simulated player play/],
    ['file', /^Choose the MIDI file under Playing/],
  ] as const)('says before the start who is going to play: %s', (player, advice) => {
    const line = feedbackWords(undefined, false, players(player));
    expect(line.sentence).toBe('Nothing played yet.');
    expect(line.advice).toMatch(advice);
    expect(line.toKit).toBe(player === 'simulated player' ? 'Connect the kit' : undefined);
  });

  it.each([
    ['kit', 'No figures yet.'],
    ['simulated player', 'The simulated player plays.'],
    ['file', 'The MIDI file plays.'],
  ] as const)('says who plays before a cycle is over: %s', (player, sentence) => {
    expect(feedbackWords(undefined, true, players(player)).sentence).toBe(sentence);
  });

  it('sends whoever has not said who plays to that question', () => {
    const inputs = players('kit', 'ask');
    inputs.isUnasked = true;
    expect(feedbackWords(undefined, false, inputs).advice).toBe('Say first who plays.');
    inputs.isUnasked = false;
    expect(feedbackWords(undefined, false, inputs).toConnect).toBe(true);
  });

  it('is the finding, unless the kit is away while it should play', () => {
    const stats = sampleStats();
    const away = players('kit', 'unplugged');
    expect(feedbackWords(stats, true, players('kit')).sentence).toBe('Left hand 9 ms late.');
    expect(feedbackWords(stats, false, away).sentence).toBe('Left hand 9 ms late.');
    expect(feedbackWords(stats, true, away)).toEqual({
      sentence: away.port.state.sentence,
      advice: away.port.state.remedy,
      toConnect: true,
      toKit: 'To the kit',
    });
  });

  it('leads past the kit where the browser has no MIDI', () => {
    const line = feedbackWords(undefined, false, players('kit', 'unsupported'));
    expect(line).toMatchObject({ toKit: 'Play without the kit', kitPage: 'first-start' });
    expect(feedbackWords(undefined, false, players('kit', 'denied')).kitPage).toBeUndefined();
  });

  it('tells where no stroke would arrive before it is tried, whatever was played before', () => {
    const away = players('kit', 'denied');
    for (const stats of [undefined, sampleStats()])
      expect(feedbackWords(stats, false, away).sentence).toBe(away.port.state.sentence);
  });

  it('is a note that the map does not know, at rest and while playing, when the kit plays', () => {
    const inputs = players('kit');
    inputs.monitor.unknown = [{ note: 31, strokes: 5 }];
    for (const [stats, playing] of [
      [undefined, false],
      [undefined, true],
      [sampleStats(), true],
    ] as const)
      expect(feedbackWords(stats, playing, inputs).sentence).toBe(
        "Note 31, struck 5 times, is not on your kit's map.",
      );
    inputs.choosePlayer('simulated player');
    expect(feedbackWords(sampleStats(), true, inputs).sentence).toBe('Left hand 9 ms late.');
  });

  it('calls cycles without a single stroke silence, one stroke no longer', () => {
    const silent = figures({ answered: 0, timed: 0, missed: 40, asWritten: 0 });
    const said = (extras: number) =>
      feedbackWords(sampleStats({ overall: silent, extras }), true, players('kit')).sentence;
    expect(said(0)).toBe('No stroke has arrived.');
    expect(said(1)).toBe('Left hand 9 ms late.');
  });

  it('calls nothing silence before the figures of a trial have begun', () => {
    const none = sampleStats({ overall: figures({ count: 0, answered: 0 }), extras: 0 });
    expect(feedbackWords(none, true, players('kit')).sentence).toBe('No figures yet.');
    expect(feedbackWords(none, false, players('kit')).sentence).toBe(none.finding);
  });
});

it.each([
  [3.2, 'Cycle 9: 17 of 20 as written, 3 milliseconds late on average.'],
  [-3.2, 'Cycle 9: 17 of 20 as written, 3 milliseconds early on average.'],
  [1.2, 'Cycle 9: 17 of 20 as written, 1 millisecond late on average.'],
  [-1.4, 'Cycle 9: 17 of 20 as written, 1 millisecond early on average.'],
  [1.6, 'Cycle 9: 17 of 20 as written, 2 milliseconds late on average.'],
  [-0.4, 'Cycle 9: 17 of 20 as written, neither early nor late on average.'],
  [undefined, 'Cycle 9: 17 of 20 as written.'],
])('reads a cycle aloud in whole words: %s ms', (meanMs, words) => {
  expect(cycleWords(cycleStats({ figures: figures({ meanMs }) }))).toBe(words);
});

it('says which cycles are told together', () => {
  const words = cycleWords(cycleStats({ fromCycle: 7 }));
  expect(words).toBe('Cycles 7 to 9: 17 of 20 as written, 3 milliseconds late on average.');
});

it('says what changes next, and from which bar', () => {
  expect(
    upcomingWords([
      { bpm: 104, bar: 2, beat: beats(1), atUs: 4e6 - 1 },
      { layer: 4, bar: 3, hasPickup: false, atUs: 4e6 },
    ]),
  ).toBe('104 bpm from bar 2, layer 4 from bar 3');
  expect(upcomingWords([{ bpm: 104, bar: 2, beat: beats(7, 2), atUs: 4e6 }])).toBe(
    '104 bpm from bar 2 beat 3 1/2',
  );
  expect(upcomingWords([{ layer: 5, bar: 6, hasPickup: true, atUs: 4e6 }])).toBe(
    'layer 5 from bar 6, after its pickup',
  );
  expect(upcomingWords([])).toBe('');
});
