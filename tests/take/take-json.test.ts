import { toJsonSchema } from '@valibot/to-json-schema';
import fc from 'fast-check';
import { format } from 'prettier';
import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { Kit } from '../../src/kit/kit';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { GUESSES } from '../../src/take/guess';
import { judgeablePhrase } from '../../src/take/judgeable-take';
import type { Take } from '../../src/take/take';
import { takeCsv } from '../../src/take/take-csv';
import { TAKE_VERSION, TakeFile } from '../../src/take/take-file';
import { parseTake, writeTake } from '../../src/take/take-json';
import { beats } from '../../src/time/beats';
import { layeredPhrase } from '../phrase/phrase-of';
import { runCount } from '../run-count';

const SCHEMA = new URL('../../shared/schemas/take.schema.json', import.meta.url).pathname;

/** A kit that has learned of a pair of pads. */
const SHAKING: Kit = {
  ...EDGE_AND_RIM,
  crosstalk: [{ struck: 'bass drum', answers: 'snare', withinMs: 4, upToPercent: 20 }],
};
/** A phrase of two layers in sixteenths. */
const PHRASE = writePhrase(layeredPhrase({}, [{ accentEvery: 3 }]));

const messages = fc.array(
  fc.record({
    timeUs: fc.integer({ min: -10e6, max: 600e6 }),
    status: fc.integer({ min: 0x80, max: 0xef }),
    data1: fc.nat(127),
    data2: fc.nat(127),
  }),
  { maxLength: 50 },
);
const ascending = <T>(numbers: fc.Arbitrary<number>, one: (value: number) => fc.Arbitrary<T>) =>
  fc
    .array(numbers, { minLength: 1, maxLength: 5 })
    .chain((list) => fc.tuple(...list.sort((a, b) => a - b).map(one)));
const windowMs = fc.option(fc.integer({ min: 1, max: 200 }), { nil: undefined });
const takes: fc.Arbitrary<Take> = fc.record({
  startedAt: fc
    .date({ min: new Date('2020-01-01'), max: new Date('2090-01-01'), noInvalidDate: true })
    .map((date) => date.toISOString()),
  phraseText: fc.string({ maxLength: 60, unit: 'binary' }),
  passages: ascending(fc.integer({ min: 1, max: 900 }), (fromBar) =>
    fc.record(
      {
        fromBar: fc.constant(fromBar),
        layer: fc.integer({ min: 1, max: 9 }),
        latePartials: fc.integer({ min: -40, max: 40 }),
        countInBars: fc.integer({ min: 1, max: 4 }),
      },
      { requiredKeys: ['fromBar', 'layer'], noNullPrototype: true },
    ),
  ),
  tempos: ascending(fc.nat(4000), (thirds) =>
    fc.integer({ min: 30, max: 300 }).map((bpm) => ({ fromBeat: beats(thirds, 3), bpm })),
  ),
  countInBars: fc.nat(4),
  endUs: fc.nat(600e6),
  kit: fc.constantFrom(GENERAL_MIDI, EDGE_AND_RIM, SHAKING),
  deviceOffsetMs: fc.integer({ min: -4000, max: 4000 }).map((quarters) => quarters / 4),
  toleranceMs: windowMs,
  reachMs: windowMs,
  silentBars: fc.option(
    fc.record(
      {
        sounding: fc.integer({ min: 1, max: 9 }),
        silent: fc.integer({ min: 1, max: 9 }),
        growBy: fc.nat(3),
        most: fc.integer({ min: 1, max: 20 }),
        anewAtTempo: fc.boolean(),
      },
      { requiredKeys: ['sounding', 'silent', 'growBy', 'most'] },
    ),
    { nil: undefined },
  ),
  messages,
  guess: fc.constantFrom(undefined, ...GUESSES),
  exercise: fc.option(
    fc.record({
      phrase: fc.string({ maxLength: 60, unit: 'binary' }),
      layer: fc.integer({ min: 1, max: 9 }),
      choice: fc.record(
        {
          excerpt: fc.record({ from: fc.integer({ min: -8, max: 90 }), to: fc.nat(90) }),
          part: fc.constantFrom({ limb: 'L' } as const, { voice: 'snare', allBut: true } as const),
          isRestHeard: fc.boolean(),
          answerCycles: fc.integer({ min: 1, max: 8 }),
        },
        { requiredKeys: [] },
      ),
      wholeBpm: fc.integer({ min: 30, max: 300 }),
    }),
    { nil: undefined },
  ),
});

const [sample] = fc.sample(takes, { numRuns: 1, seed: 1 });
const file = JSON.parse(writeTake(sample!)) as Record<string, unknown>;
/** Of a file of 8,192 characters, where it is not longer: 24,576 notes may be due in it. */
const errorOf = (change: Record<string, unknown>) => {
  const result = parseTake(JSON.stringify({ ...file, ...change }).padEnd(8192));
  return result.ok ? undefined : result.errors[0];
};

const layersPlayed = (...layers: number[]) => layers.map((layer, i) => ({ fromBar: 1 + i, layer }));
/** Layer 1, from bar 3 on layer 2, and that again where it was moved to. */
const moved = (fromBar: number, some: object) => [
  { fromBar: 1, layer: 1 },
  { fromBar: 3, layer: 2 },
  { fromBar, layer: 2, ...some },
];
/** At 120 eight partials a second: 500,000 of them take 62,500 s. Each has a note, and counts as an eighth of one: nine a second. */
const SIXTEENTHS = {
  phrase: PHRASE,
  passages: layersPlayed(1),
  tempos: [{ fromBeat: '0', bpm: 120 }],
};
/** The first hundred bars, 400 beats, at 60 with one stroke in a beat: 400 s with 400 notes and 400 partials, 450 in all. */
const SLOWER = {
  ...SIXTEENTHS,
  phrase: writePhrase(layeredPhrase({ subdivision: 1 }, [{ subdivision: 4 }])),
  passages: [
    { fromBar: 1, layer: 1 },
    { fromBar: 101, layer: 2 },
  ],
  tempos: [
    { fromBeat: '0', bpm: 60 },
    { fromBeat: '400', bpm: 120 },
  ],
};
/** One stroke in sixteen sixteenths: a note every 2 s, and three in two seconds with the partials. */
const SPARSE = {
  ...SIXTEENTHS,
  phrase: writePhrase(layeredPhrase({ grouping: `R${' -'.repeat(15)}` })),
};
/** So many messages, the last of them at a time in microseconds, the others before. */
const lastAt = (timeUs: number, count: number) =>
  Array.from({ length: count }, (_, i) => [i === count - 1 ? timeUs : i, 0x99, 38, 64]);

describe('take files', () => {
  it('there and back is the same take', () => {
    fc.assert(
      fc.property(takes, (take) => {
        const read = parseTake(writeTake(take));
        expect(read).toEqual({ ok: true, value: take });
      }),
    );
  });

  it.each([
    ['VERSION', 'take', { take: TAKE_VERSION + 1 }],
    ['SHAPE', 'take', { take: 0 }],
    ['SHAPE', 'startedAt', { startedAt: 'yesterday' }],
    ['SHAPE', 'messages[0][1]', { messages: [[0, 0xf8, 0, 0]] }],
    ['SHAPE', 'messages[0][3]', { messages: [[0, 0x99, 38, 128]] }],
    ['SHAPE', 'tempos[0].fromBeat', { tempos: [{ fromBeat: '1/0', bpm: 90 }] }],
    ['SHAPE', 'passages', { passages: [] }],
    ['SHAPE', 'tempos', { tempos: [] }],
    ['SHAPE', 'tempos[0].bpm', { tempos: [{ fromBeat: '0', bpm: 0 }] }],
    ['SHAPE', 'reachMs', { reachMs: 0 }],
    ['SHAPE', 'reachMs', { reachMs: -100 }],
    // The gate takes none beyond.
    ['SHAPE', 'trials.threshold', { trials: { threshold: 0.971 } }],
    ['SHAPE', 'trials.threshold', { trials: { threshold: 0.009 } }],
    ['SHAPE', 'trials.wrongPass', { trials: { wrongPass: 0.0009 } }],
    ['SHAPE', 'guess', { guess: 'on time' }],
    ['SHAPE', 'trials.leftOutBars[0]', { trials: { leftOutBars: [-1] } }],
    // The matching reaches half a second at most.
    ['SHAPE', 'reachMs', { reachMs: 500.1 }],
    ['SHAPE', 'toleranceMs', { toleranceMs: -1 }],
    ['SHAPE', 'endUs', { endUs: -1 }],
    ['SHAPE', 'passages[0].layer', { passages: [{ fromBar: 1, layer: 0 }] }],
    ['SHAPE', 'passages[0].countInBars', { passages: [{ fromBar: 1, layer: 1, countInBars: 0 }] }],
    [
      'SHAPE',
      'passages[0].latePartials',
      { passages: [{ fromBar: 1, layer: 1, latePartials: 0.5 }] },
    ],
    // Sixteenths of 4/4: bar 3 begins 32 partials after bar 1, and one before comes ahead of the passage at bar 3.
    ['ORDER', 'passages[2]', { phrase: PHRASE, passages: moved(3, { latePartials: -1 }) }],
    ['ORDER', 'passages[2]', { phrase: PHRASE, passages: moved(4, { countInBars: 2 }) }],
    ['LAYER', 'passages[1].layer', { phrase: PHRASE, passages: layersPlayed(1, 3) }],
    ['TOO_LARGE', 'messages', { ...SIXTEENTHS, messages: lastAt(62_500_100_000, 13_000) }],
    ['TOO_LARGE', 'messages', { ...SIXTEENTHS, messages: lastAt(2730.7e6, 1) }],
    ['TOO_LARGE', 'messages', { ...SLOWER, messages: lastAt(3080.7e6, 1) }],
    ['TOO_LARGE', 'messages', { ...SPARSE, messages: lastAt(16_384.1e6, 1) }],
    [
      'ORDER',
      'tempos[1]',
      {
        tempos: [
          { fromBeat: '-4', bpm: 90 },
          { fromBeat: '-2', bpm: 90 },
        ],
      },
    ],
    ['SHAPE', 'kit.pads', { kit: { ...GENERAL_MIDI, pads: [] } }],
    [
      'KIT',
      'kit.pads[1].note',
      { kit: { ...GENERAL_MIDI, pads: [1, 2].map(() => GENERAL_MIDI.pads[0]) } },
    ],
    [
      'ORDER',
      'tempos[1]',
      {
        tempos: [
          { fromBeat: '4', bpm: 90 },
          { fromBeat: '7/2', bpm: 90 },
        ],
      },
    ],
    [
      'ORDER',
      'passages[1]',
      {
        passages: [
          { fromBar: 3, layer: 1 },
          { fromBar: 1, layer: 2 },
        ],
      },
    ],
  ])('%s at %s', (code, place, change) => {
    expect(errorOf(change)).toMatchObject({ code, place });
    expect(errorOf(change)?.message).toMatch(/^[A-Z].*; .*\.$/);
  });

  it.each([
    ['the last layer there is', { phrase: PHRASE, passages: layersPlayed(1, 2) }],
    ['a last message as late as may be', { ...SIXTEENTHS, messages: lastAt(62.5e9, 13_000) }],
    ['one message as late as may be', { ...SIXTEENTHS, messages: lastAt(2730.6e6, 1) }],
    [
      'one message as late as may be after another tempo and another layer',
      { ...SLOWER, messages: lastAt(3080.6e6, 1) },
    ],
    [
      'one message as late as may be where most is rest',
      { ...SPARSE, messages: lastAt(16_383.9e6, 1) },
    ],
    ['the widest reach', { reachMs: 500 }],
    [
      'a target that waits in the same bar',
      { phrase: PHRASE, passages: moved(3, { latePartials: 1 }) },
    ],
    [
      'a count-in from a passage’s own bar line on',
      { phrase: PHRASE, passages: moved(4, { countInBars: 1 }) },
    ],
    ['a file from before targets moved', { take: 3 }],
    ['what was guessed', { guess: 'fine' }],
    ['a file from before guesses were kept', { take: 2 }],
    ['a tempo that was changed ahead of bar 1', { tempos: [{ fromBeat: '-1/2', bpm: 90 }] }],
    ['the quickest sixteenths', { tempos: [{ fromBeat: '0', bpm: 1200 }] }],
  ])('takes %s', (_, change) => {
    expect(errorOf(change)).toBeUndefined();
  });

  it('lawOpensLikeTheLog: a take that can be judged is written as a file that opens, whatever silence is in it', () => {
    let silent = 0;
    const late = fc.record({
      phraseText: fc.constantFrom(PHRASE, SPARSE.phrase),
      layer: fc.constantFrom(1, 2),
      bpm: fc.integer({ min: 1, max: 300 }),
      timeUs: fc.integer({ min: 0, max: 80_000e6 }),
    });
    fc.assert(
      fc.property(late, ({ phraseText, layer, bpm, timeUs }) => {
        const take: Take = {
          ...sample!,
          phraseText,
          passages: layersPlayed(layer),
          tempos: [{ fromBeat: beats(0), bpm }],
          messages: [{ timeUs, status: 0x99, data1: 38, data2: 64 }],
          commands: undefined,
        };
        const text = writeTake(take);
        const isJudged = judgeablePhrase(take) !== undefined;
        expect(parseTake(text).ok).toBe(isJudged);
        if (isJudged && !parseTake(JSON.stringify(JSON.parse(text))).ok) silent++;
      }),
      { numRuns: runCount(100) },
    );
    expect(silent).toBeGreaterThan(0);
  });

  it('is no longer than what is due in it asks', () => {
    const take: Take = {
      ...sample!,
      phraseText: PHRASE,
      passages: layersPlayed(1),
      tempos: [{ fromBeat: beats(0), bpm: 120 }],
      commands: undefined,
    };
    const last = (timeUs: number) => ({ timeUs, status: 0x99, data1: 38, data2: 64 });
    const short = writeTake({ ...take, messages: [last(300e6)] });
    expect(short).toBe(`${short.trimEnd()}\n`);
    // Nine a second in 10,000 s, three a character.
    const long = writeTake({ ...take, messages: [last(10_000e6)] });
    expect(long).toHaveLength(30_000);
    expect(parseTake(long).ok).toBe(true);
    expect(parseTake(long.replace(' \n', '\n')).ok).toBe(false);
  });

  it('does not write an end ahead of the start, where a clock was set back', () => {
    expect(parseTake(writeTake({ ...sample!, endUs: -1 }))).toMatchObject({ value: { endUs: 0 } });
  });

  it('refuses what is not JSON, and what is far too long', () => {
    const refused = [parseTake('{'), parseTake(' '.repeat(8_000_001))];
    expect(refused.map((result) => !result.ok && result.errors[0]!.code)).toEqual([
      'NOT_JSON',
      'TOO_LARGE',
    ]);
  });
});

describe('shared/schemas/take.schema.json', () => {
  it('is the shape that parseTake checks; `npx vitest -u` writes it anew', async () => {
    const schema = JSON.stringify(toJsonSchema(TakeFile));
    const text = await format(schema, { parser: 'json', printWidth: 100 });
    await expect(text).toMatchFileSnapshot(SCHEMA);
  });
});

describe('takeCsv', () => {
  it('has one row a stroke, in time order and less the offset of the rig, with what was set aside', () => {
    const stroke = (timeUs: number, data1: number, data2: number) => ({
      timeUs,
      status: 0x99,
      data1,
      data2,
    });
    const csv = takeCsv({
      player: 'simulated player',
      deviceOffsetMs: 5,
      kit: EDGE_AND_RIM,
      messages: [
        stroke(31_000, 38, 40),
        stroke(3_766, 38, 100),
        stroke(9.005e6, 26, 90),
        stroke(15_000, 40, 30),
      ],
    });
    expect(csv).toBe(
      [
        'time_ms,voice,velocity,note,set_aside,player',
        '-1.234,snare,100,38,,simulated player',
        '10.000,snare,30,40,double trigger,simulated player',
        '26.000,snare,40,38,,simulated player',
        '9000.000,hi-hat open,90,26,,simulated player',
        '',
      ].join('\r\n'),
    );
  });
});
