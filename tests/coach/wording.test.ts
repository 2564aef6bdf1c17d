import { describe, expect, it } from 'vitest';
import { drillWords, type Drill } from '../../src/coach/drill';
import { wording, type FindingCode } from '../../src/coach/wording';
import { SAMPLES, SURE } from './longest-sentences';

const sentences = Object.entries(SAMPLES).map(
  ([code, facts]) => [code, wording(code as FindingCode, facts as never)] as const,
);

describe('the catalogue', () => {
  it.each(sentences)('%s is short, a sentence, and filled in', (_, { text, advice, detail }) => {
    expect(text.length).toBeLessThanOrEqual(64);
    expect(text.split(' ').length).toBeLessThanOrEqual(12);
    expect(advice.split(' ').length).toBeLessThanOrEqual(25);
    expect((detail ?? '').split(' ').length).toBeLessThanOrEqual(25);
    for (const sentence of [text, advice, ...(detail === undefined ? [] : [detail])]) {
      expect(sentence).toMatch(/^[A-Z0-9“].*\.$/);
      expect(sentence).not.toMatch(/undefined|NaN|Infinity|-\d/);
    }
  });

  /** Told against what is written, as a drummer would. */
  const COMPARED: readonly string[] = ['other tempo', 'swing'] satisfies FindingCode[];
  const PLACES = /position \d+|over \d+ bars|from bar \d+ to \d+/gi;

  it.each(sentences)(
    '%s has one number beside places, a share counting as one',
    (code, { text }) => {
      const figures = text.replaceAll(PLACES, '').match(/\d+( of (its )?\d+)?/g) ?? [];
      if (!COMPARED.includes(code)) expect(figures.length).toBeLessThanOrEqual(1);
    },
  );

  // The words of entertainment and of praise that this software does not use, and of blame.
  it.each(sentences)('%s keeps to the words', (_, { text, advice, detail }) => {
    expect(`${text} ${advice} ${detail}`).not.toMatch(
      /\b(perfect|great|good|nice|awesome|well done|bad|wrong|sloppy|fail\w*|must|always|never|score|combo|streak|star|lives|points?|level up|hit|hits|grade)\b|!/i,
    );
  });
});

describe('what the advice names of the program', () => {
  /** Read off the advice by eye: what its button does, or that a drummer does it without the program. */
  const DRILLS: { readonly [Code in FindingCode]: Drill['kind'] | undefined } = {
    undecided: undefined,
    even: undefined,
    'nothing stands out': undefined,
    'other tempo': 'other tempo',
    'lost place': undefined,
    'all strokes off': 'rig offset',
    swing: 'turns',
    'partial off': 'these notes slower',
    'limb off': 'limb alone',
    'voice off': 'these notes slower',
    'level off': 'these notes slower',
    'layer off': 'other layer',
    'position off': 'these notes slower',
    'transition off': 'these notes slower',
    'unison off': 'these notes slower',
    'spread apart': 'these notes slower',
    'spread grows': undefined,
    spread: 'layer slower',
    drift: undefined,
    'silent bars': undefined,
    missed: 'these notes slower',
    'own notes wrong': 'these notes slower',
    'too loud': 'these notes',
    'too soft': 'these notes',
    contrast: undefined,
    'levels inverted': undefined,
    'wrong voice': 'these notes slower',
    'voice mapped': 'note map',
    bounces: undefined,
    extras: undefined,
  };
  /** What the program has, in the words of its screens. */
  const OF_THE_PROGRAM =
    /practise|slower|\bloop|these notes|(hand|foot) alone|hear (it|two|this)|fewer|tempo to|count-in|leading hand/i;

  it.each(sentences)('%s: button and advice are the same words', (code, { advice, drill }) => {
    expect(drill?.kind).toBe(DRILLS[code as FindingCode]);
    const named = drill ? drillWords(drill) : '';
    expect(advice.toLowerCase()).toContain(named);
    expect(advice.toLowerCase().replace(named, '')).not.toMatch(OF_THE_PROGRAM);
  });

  it.each([
    ['missed', { name: undefined, times: 12, of: 20 }, 'layer slower'],
    ['too loud', { name: undefined, level: 'tap', times: 14, of: 120, db: 6 }, 'these notes'],
    ['too soft', { name: undefined, level: 'tap', times: 14, of: 120, db: 6 }, 'these notes'],
    ['wrong voice', SAMPLES['voice mapped'], 'these notes slower'],
    // Whole tempi only: 59.6 cannot be chosen, and 60 is what it was.
    ['other tempo', { playedBpm: 59.6, clickBpm: 60 }, undefined],
  ] as const)('%s, the other case', (code, facts, kind) => {
    const { advice, drill } = wording(code, facts as never);
    expect(drill?.kind).toBe(kind);
    const named = drill ? drillWords(drill) : '';
    expect(advice.toLowerCase()).toContain(named);
    expect(advice.toLowerCase().replace(named, '')).not.toMatch(OF_THE_PROGRAM);
    expect(advice.split(' ').length).toBeLessThanOrEqual(25);
  });
});

describe('sentences, filled in by eye', () => {
  const left = { name: 'left hand', isOwn: true, sure: SURE };
  it.each([
    ['limb off', { ...left, ms: 12.4 }, 'Left hand 12 ms late, steadily.'],
    ['limb off', { ...left, ms: -9.6 }, 'Left hand 10 ms early, steadily.'],
    ['limb off', { ...left, ms: -8, isOwn: false }, 'Left hand 8 ms ahead of the rest, steadily.'],
    ['limb off', { ...left, ms: 0.2 }, 'Left hand 1 ms late, steadily.'],
    [
      'position off',
      { ...left, name: 'position 14', ms: -20, isOwn: false },
      'Position 14: 20 ms ahead of the rest.',
    ],
    [
      'position off',
      { ...left, name: 'position 14, right hand', ms: -20, isOwn: false },
      'Position 14, right hand: 20 ms ahead of the rest.',
    ],
    [
      'layer off',
      { ...left, name: 'notes of “Ghosts, toms”', ms: 20, layer: 4 },
      'Notes of “Ghosts, toms” 20 ms late.',
    ],
    [
      'contrast',
      { db: 14.6, aimDb: 15, sure: SURE },
      'Contrast 14 dB: accents too near the ghosts.',
    ],
    [
      'contrast',
      { db: 12.8, aimDb: 15, sure: SURE },
      'Contrast 13 dB: accents too near the ghosts.',
    ],
    [
      'silent bars',
      { ms: -40, returns: 6, sure: { lower: -44, upper: -36 } },
      'Rushing without the click: 40 ms by its return.',
    ],
    [
      'silent bars',
      { ms: 40, returns: 6, sure: { lower: 36, upper: 44 } },
      'Dragging without the click: 40 ms by its return.',
    ],
    ['drift', { ms: 18, bars: 1, isGrowing: false }, 'Dragging: 18 ms over 1 bar.'],
    ['drift', { ms: -18, bars: 8, isGrowing: false }, 'Rushing: 18 ms over 8 bars.'],
    ['drift', { ms: -90, bars: 8, isGrowing: true }, 'Rushing more and more: 90 ms over 8 bars.'],
    ['other tempo', { playedBpm: 87.1, clickBpm: 88 }, 'You play 87, the click is 88.'],
    ['other tempo', { playedBpm: 59.6, clickBpm: 60 }, 'You play 59.6, the click is 60.'],
    ['swing', { played: 1.52, written: 2, sure: SURE }, 'Swing 1.5 to 1, written 2 to 1.'],
    ['spread grows', { fromMs: 8.2, toMs: 15.8 }, 'Spread grows to 16 ms.'],
    [
      'spread apart',
      { name: 'left hand', ms: 22.2, restMs: 11.8 },
      'Left hand: spread 22 ms, more than the rest.',
    ],
    [
      'transition off',
      { ...left, name: 'high tom to snare', ms: 20, isOwn: false },
      'High tom to snare: 20 ms behind the rest.',
    ],
    [
      'unison off',
      {
        ...left,
        name: 'left hand, with right foot',
        limbs: ['left hand', 'right foot'],
        ms: -20,
      },
      'Unisons with right foot: left hand 20 ms early.',
    ],
    [
      'unison off',
      {
        ...left,
        name: 'right foot, with right hand',
        limbs: ['right foot', 'right hand'],
        ms: 20,
        isOwn: false,
      },
      'Unisons with right hand: right foot 20 ms behind the rest.',
    ],
    [
      'spread apart',
      { name: 'right hand, with right foot', ms: 22.2, restMs: 11.8 },
      'Right hand, with right foot: spread 22 ms, more than the rest.',
    ],
    [
      'lost place',
      { partials: 1, subdivision: 4, fromBar: 5, times: 1, repeats: 16 },
      'Slipped one sixteenth late since bar 5.',
    ],
    [
      'lost place',
      { partials: -2, subdivision: 3, fromBar: 5, toBar: 8, times: 2, repeats: 16 },
      'Slipped two triplet partials early from bar 5 to 8.',
    ],
    [
      'lost place',
      { partials: 3, subdivision: 5, fromBar: 5, toBar: 5, times: 2, repeats: 16 },
      'Slipped three partials late in bar 5.',
    ],
    [
      'wrong voice',
      { written: 'ride', struck: 'crash', times: 1, name: undefined },
      'Crash struck for ride, 1 time.',
    ],
    // Twelve words, and thirteen: where it happens is read at the desk.
    [
      'wrong voice',
      { written: 'floor tom', struck: 'high tom', times: 12, name: 'position 14, left hand' },
      'High tom struck for floor tom, 12 times: position 14, left hand.',
    ],
    [
      'wrong voice',
      { written: 'floor tom', struck: 'high tom', times: 12, name: 'left hand, with right foot' },
      'High tom struck for floor tom, 12 times.',
    ],
    ['extras', { times: 1, mostOn: undefined, beside: undefined }, '1 extra stroke.'],
    ['undecided', { strokes: 21, of: 72 }, 'Nothing to say about time yet: 21 of 72 strokes.'],
    [
      'too soft',
      { name: 'snare', level: 'accent', times: 3, of: 9, db: 0.2 },
      'Snare accents too soft: 3 of 9.',
    ],
    [
      'too loud',
      { name: undefined, level: 'ghost', times: 9, of: 9, db: 4 },
      'Ghosts too loud: 9 of 9.',
    ],
    [
      'too loud',
      { name: 'position 3', level: 'ghost', times: 9, of: 9, db: 4 },
      'Ghosts, position 3, too loud: 9 of 9.',
    ],
    [
      'too loud',
      { name: 'second sixteenths', level: 'ghost', times: 9, of: 9, db: 4 },
      'Ghosts, second sixteenths, too loud: 9 of 9.',
    ],
    [
      'too soft',
      { name: 'left hand', level: 'accent', times: 3, of: 9, db: 4 },
      'Left hand accents too soft: 3 of 9.',
    ],
  ] as const)('%s', (code, facts, text) => {
    expect(wording(code, facts as never).text).toBe(text);
  });
});

describe('the numbers of a sentence, filled in by eye', () => {
  const sure = (lower: number, upper: number, bars = 16) => ({
    strokes: 64,
    bars,
    interval: { lower, upper },
  });
  const left = { name: 'left hand', ms: 12, isOwn: false };
  it.each([
    [
      'limb off',
      { ...left, sure: sure(9.2, 14.8) },
      '64 strokes of 16 bars; between 9 and 15 ms behind the rest with 95 % certainty.',
    ],
    [
      'limb off',
      { ...left, ms: -12, sure: sure(-14.8, -9.2) },
      '64 strokes of 16 bars; between 9 and 15 ms ahead of the rest with 95 % certainty.',
    ],
    // Tenths below 3, whole figures from there on.
    [
      'limb off',
      { ...left, sure: sure(11, 13.9, 1) },
      '64 strokes of 1 bar; between 11.0 and 13.9 ms behind the rest with 95 % certainty.',
    ],
    [
      'limb off',
      { ...left, sure: sure(11, 14) },
      '64 strokes of 16 bars; between 11 and 14 ms behind the rest with 95 % certainty.',
    ],
    [
      'all strokes off',
      { ms: -20, sure: sure(-22, -18) },
      '64 strokes of 16 bars; between 18 and 22 ms early with 95 % certainty.',
    ],
    [
      'swing',
      { played: 1.5, written: 2, sure: sure(1.42, 1.61) },
      '64 strokes of 16 bars; between 1.4 and 1.6 to 1 with 95 % certainty.',
    ],
    [
      'contrast',
      { db: 2, aimDb: 15, sure: sure(-1, 5) },
      '64 strokes of 16 bars; between −1 and 5 dB with 95 % certainty.',
    ],
    // Newcombe 1998 (Stat. Med. 17:857-872), table I: the score interval of 15 of 148 is 0.0624 to 0.1605.
    [
      'missed',
      { name: 'left hand', times: 15, of: 148 },
      '15 of 148 missed; between 6 and 16 % with 95 % certainty.',
    ],
    [
      'bounces',
      { name: undefined, times: 15, of: 148 },
      '15 of 148 followed by one; between 6 and 16 % with 95 % certainty.',
    ],
    // A difference that is told at all is never told as 0.
    [
      'too soft',
      { name: 'snare', level: 'accent', times: 15, of: 148, db: 0.2 },
      '15 of 148 too soft; between 6 and 16 % with 95 % certainty. Half of them by 1 dB or more.',
    ],
    [
      'too loud',
      { name: undefined, level: 'ghost', times: 15, of: 148, db: 4 },
      '15 of 148 too loud; between 6 and 16 % with 95 % certainty. Half of them by 4 dB or more.',
    ],
    ['spread apart', { name: 'left hand', ms: 22.2, restMs: 11.8 }, 'The rest: spread 12 ms.'],
    ['spread grows', { fromMs: 8.2, toMs: 15.8 }, 'In the first third 8 ms, in the last 16 ms.'],
    [
      'wrong voice',
      { written: 'floor tom', struck: 'high tom', times: 12, name: 'left hand, with right foot' },
      'Most often: left hand, with right foot.',
    ],
    [
      'extras',
      { times: 12, mostOn: undefined, beside: 'position 7' },
      'Most of them beside position 7.',
    ],
    ['extras', { times: 12, mostOn: 'snare', beside: undefined }, undefined],
    ['drift', { ms: 18, bars: 8, isGrowing: false }, undefined],
  ] as const)('%s', (code, facts, detail) => {
    expect(wording(code, facts as never).detail).toBe(detail);
  });
});
