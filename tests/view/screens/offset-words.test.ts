import { expect, it } from 'vitest';
import { tapEstimate } from '../../../src/clock/latency/tap-estimate';
import { histogramWords } from '../../../src/view/screens/kit/offset/histogram-scale';
import {
  measuredWords,
  microphoneWords,
  offsetLine,
  ownWords,
  playingWords,
  rigWords,
  sentWords,
  strokesWords,
  sureWords,
} from '../../../src/view/screens/kit/offset/offset-words';
import { MEASURED, playedOffsets } from '../sample-offsets';

const BY_HAND = { ...MEASURED, method: 'by hand' } as const;
const FIVE_LATE = {
  ...MEASURED,
  deviceAndHabitMs: 5,
  lowerMs: 2,
  upperMs: 8,
  playedAt: '2026-11-25T10:00:00Z',
};

it('tells the rig’s number, how it came about and how sure it is', () => {
  expect(rigWords(undefined)).toMatch(/not measured yet: nothing is subtracted/);
  expect(rigWords(MEASURED)).toMatch(
    /^The rig’s number is measured by microphone on 24 November 2026; with 95 % confidence \+22\.5 to \+24\.3 ms\./,
  );
  const { intervalMs, ...unsure } = BY_HAND;
  expect(intervalMs).toBeDefined();
  expect(rigWords(unsure)).toMatch(/set by hand on 24 November 2026\. It is/);
  expect(offsetLine(BY_HAND)).toBe('Offset of this rig: +23 ms, set by hand on 24 November 2026.');
});

it('tells the player’s number only beside a rig’s that comes from elsewhere', () => {
  expect(ownWords(undefined, FIVE_LATE)).toMatch(/^Your own number is what is left/);
  expect(ownWords(MEASURED, undefined)).toMatch(/^Play to the click below/);
  expect(ownWords({ ...MEASURED, method: 'from playing' }, FIVE_LATE)).toMatch(/cannot be told/);
  // 5 − 23.4, worked by hand.
  expect(ownWords(MEASURED, FIVE_LATE)).toMatch(
    /^You tend to play 18 ms ahead of the click .* Played to the click on 25 November 2026\..* never subtracted\.$/,
  );
});

it('tells how measuring by microphone stands', () => {
  const idle = { phase: 'idle', outcome: undefined, problem: undefined } as const;
  const measured = {
    outcome: 'measured',
    deviceOffsetMs: 23.4,
    lowerMs: 22.5,
    upperMs: 24.3,
    spreadMs: 0.4,
    strokes: 31,
    clicks: 40,
    peakDb: 27,
  } as const;
  const refused = { outcome: 'refused', why: 'too quiet', sentence: 'Almost nothing.' } as const;
  expect([
    microphoneWords(idle),
    microphoneWords({ ...idle, phase: 'asking' }),
    microphoneWords({ ...idle, phase: 'recording' }),
    microphoneWords({ ...idle, phase: 'analysing' }),
    microphoneWords({ ...idle, problem: 'No microphone was found.' }),
    microphoneWords({ ...idle, phase: 'done', outcome: refused }),
    microphoneWords({ ...idle, phase: 'done', outcome: measured }),
  ]).toEqual([
    '',
    'The browser asks whether this page may listen: allow it.',
    'Strike the pad in between the clicks.',
    'Working it out.',
    'No microphone was found.',
    'Almost nothing.',
    'The rig’s offset is +23.4 ms.',
  ]);
});

it.each([
  ['spread too large', playedOffsets(50), /scatter by .* play once more/],
  ['too few', playedOffsets().slice(0, 12), /^Only 8 strokes came after .* play at least 24/],
  ['only one', playedOffsets().slice(0, 5), /^Only 1 stroke came after/],
  ['two groups', playedOffsets().map((ms, i) => ms + (i % 2) * 200), /two groups/],
  ['drift', playedOffsets(2).map((ms, i) => ms + i * 3), /moved by/],
  ['enough', playedOffsets(), /^Rig and habit together: \+5\.\d ms\.$/],
])('tells what came of playing to the click: %s', (_, offsets, sentence) => {
  const estimate = tapEstimate(offsets, 600);
  expect(playingWords({ phase: 'done', estimate, problem: undefined })).toMatch(sentence);
});

it('leads through playing to the click', () => {
  const nothing = { estimate: undefined, problem: undefined };
  expect(playingWords({ ...nothing, phase: 'playing' })).toMatch(/one stroke to every click/);
  expect(playingWords({ ...nothing, phase: 'starting' })).toBe('Starting the sound.');
  expect(playingWords({ ...nothing, phase: 'idle' })).toBe('');
});

it('tells a histogram without the drawing', () => {
  const { histogram } = tapEstimate([90, 80, 70, 60, ...playedOffsets().slice(4), 190], 600);
  expect(histogramWords(histogram)).toMatch(/^33 strokes from −\d+ to \+195 ms of the click;/);
});

it('tells what playing to the click rests on', () => {
  expect(strokesWords(0, undefined)).toBe('0 strokes: strike a pad. The first 4 do not count.');
  expect(strokesWords(1, 'ride')).toBe('1 stroke on ride. The first 4 do not count.');
  expect(strokesWords(2, 'ride')).toBe('2 strokes on ride. The first 4 do not count.');
  const figures = { ...FIVE_LATE, spreadMs: 14.6, strokes: 32, warmUp: 4, wild: 0 };
  const sure = 'With 95 % confidence +2.0 to +8.0 ms, from 32 strokes that scatter by 15 ms.';
  expect(sureWords(figures)).toBe(`${sure} Left out: the first 4 as warm-up.`);
  expect(sureWords({ ...figures, wild: 1 })).toBe(
    `${sure} Left out: the first 4 as warm-up, and 1 far from the rest.`,
  );
});

it('tells what measuring by microphone has got so far, and what its number rests on', () => {
  expect(sentWords(1)).toBe('1 stroke came from the kit; 20 or more are wanted.');
  expect(sentWords(2)).toBe('2 strokes came from the kit; 20 or more are wanted.');
  expect(
    measuredWords({ lowerMs: 22.5, upperMs: 24.3, strokes: 31, clicks: 40, spreadMs: 0.51 }),
  ).toBe(
    'With 95 % confidence +22.5 to +24.3 ms, from 31 strokes and 40 clicks. The kit’s time stamps scatter by 0.5 ms against what was heard.',
  );
});
