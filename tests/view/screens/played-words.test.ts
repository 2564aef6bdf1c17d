import { expect, it } from 'vitest';
import {
  captureFinding,
  SURE_FROM,
  type CaptureFinding,
} from '../../../src/capture/capture-finding';
import { countings } from '../../../src/capture/countings';
import {
  listeningWords,
  playedWhen,
  takeWords,
  usualTitle,
} from '../../../src/view/screens/capture/played-words';
import {
  stickingFinding,
  unsureWords,
  writtenWords,
} from '../../../src/view/screens/capture/written-words';
import { phraseOf } from '../../phrase/phrase-of';

it('tells the time, and the day where it was another', () => {
  const at = new Date(2026, 2, 9, 8, 5).toISOString();
  expect(playedWhen(at, new Date(2026, 2, 9, 23, 59))).toBe('08:05');
  expect(playedWhen(at, new Date(2026, 2, 10, 0, 1))).toBe('08:05 on 9 March 2026');
});

it.each([
  ['Net Mender.MID', 'Net Mender'],
  ['.mid', 'Played at 08:05 on 9 March 2026'],
  [undefined, 'Played at 08:05 on 9 March 2026'],
])('calls what is captured after the file, if there is one: %s', (fileName, title) => {
  const at = new Date(2026, 2, 9, 8, 5).toISOString();
  expect(usualTitle({ fileName, at })).toBe(title);
});

const finding = (about: CaptureFinding['about'], confidence: number) =>
  captureFinding(about, confidence, 'found');

it('says what is not sure as the player would', () => {
  expect(
    unsureWords({
      findings: [
        finding('tempo', 0.9),
        finding('meter position', 0.4),
        finding('levels', 0.4),
        finding('sticking', 0.2),
      ],
      inSomeRounds: [],
      leftOut: [],
    }),
  ).toBe(
    'It is not sure of where the bar begins and the levels: look at that before you practise it. The sticking is a guess: a kit does not hear which hand struck.',
  );
});

it('names single notes that came in some rounds only, and what came too seldom to be one', () => {
  const words = unsureWords({
    findings: [finding('notes', 0.9)],
    inSomeRounds: [{ partial: 2, voice: 'snare', rounds: 5, of: 8 }],
    leftOut: [{ partial: 0, voice: 'crash', rounds: 1, of: 8 }],
  });
  expect(words).toBe(
    'It is sure of everything it found. Struck in some rounds only: snare on partial 3 (5 of 8 rounds). Left out, since it came in too few rounds: crash on partial 1 (1 of 8 rounds).',
  );
});

it('names a tempo found by ear in whole beats a minute', () => {
  const written = (tempoBpm: number) =>
    writtenWords({
      phrase: phraseOf({ grouping: 'R L K', tempoBpm }),
      rounds: 8,
      findings: [],
    });
  expect([written(95.81), written(96)]).toEqual([
    'A cycle of 3 sixteenths, played 8 times round at about 96 bpm.',
    'A cycle of 3 sixteenths, played 8 times round at 96 bpm.',
  ]);
});

it.each([
  ['tempo', SURE_FROM - 0.01, 'Perhaps a cycle of 3 sixteenths, played 8 times round at 96 bpm.'],
  ['tempo', SURE_FROM, 'A cycle of 3 sixteenths, played 8 times round at 96 bpm.'],
  ['cycle', SURE_FROM - 0.01, 'Perhaps a cycle of 3 sixteenths, played 8 times round at 96 bpm.'],
  ['levels', SURE_FROM - 0.01, 'A cycle of 3 sixteenths, played 8 times round at 96 bpm.'],
] as const)('claims what the sentence names only when it is sure: %s, %d', (about, sure, words) => {
  const phrase = phraseOf({ grouping: 'R L K', tempoBpm: 96 });
  const findings = [finding('subdivision', 1), finding(about, sure)];
  expect(writtenWords({ phrase, rounds: 8, findings })).toBe(words);
});

it('writes the sticking that was found partial by partial, unisons and rests too', () => {
  expect(stickingFinding(phraseOf({ grouping: 'R+K - lR L' }))).toBe('R+K - lR L');
});

it('tells one take from another in the list', () => {
  const at = new Date(new Date().setHours(18, 20)).toISOString();
  const strokes = Array.from({ length: 30 }, (_, i) => ({
    timeUs: i,
    pad: 38,
    voice: 'snare' as const,
    velocity: 80,
  }));
  const free = { at, strokes, fileName: undefined, clickBpm: undefined, isCutShort: false };
  expect([
    takeWords(free),
    takeWords({ ...free, clickBpm: 120 }),
    takeWords({ ...free, clickBpm: 120, isCutShort: true }),
    takeWords({ ...free, clickBpm: 120, fileName: 'oars.mid' }),
    takeWords({ ...free, strokes: strokes.slice(0, 1) }),
  ]).toEqual([
    '18:20, 30 strokes, without a click',
    '18:20, 30 strokes, to the click at 120',
    '18:20, 30 strokes, to the click at 120, cut short',
    '18:20, 30 strokes, oars.mid',
    '18:20, 1 stroke, without a click',
  ]);
});

it.each([
  ['idle', 0, 0, 'Not listening'],
  ['starting', 0, 0, 'Starting the sound'],
  ['counting in', 0, 0, 'Counting in'],
  ['listening', 0, 0, 'Play when you like'],
  ['listening', 1, 0, 'Play'],
  ['listening', 1, 7, 'Listening: play it several times round'],
] as const)('says what capture is doing: %s, bar %i, %i strokes', (status, bar, strokes, words) => {
  expect(listeningWords({ status, bar, strokes })).toBe(words);
});

it('counts the same partials in other ways, at tempi that somebody may count', () => {
  const words = countings(phraseOf({ tempoBpm: 120 })).map(({ name }) => name);
  // 480 partials a minute, three of them to a beat.
  expect(words).toContain('eighth triplets at 160 bpm');
  expect(words).toContain('sixteenths at 120 bpm');
  expect(words).toContain('eighths at 240 bpm');
  expect(words.filter((one) => one.startsWith('quarters'))).toEqual([]);
});
