import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/control/command';
import type { CommandControl } from '../../src/control/control';
import { ControlRecogniser, ECHO, NO_COMMAND } from '../../src/control/control-recogniser';
import { controlRules, type ControlRules } from '../../src/control/control-rules';
import { longestRow, padBeats } from '../../src/control/pad-beats';
import { strikesFor } from '../../src/control/strike-gaps';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { KitDecoder } from '../../src/kit/kit-decoder';
import { padGroups } from '../../src/kit/pad-groups';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import {
  commandsIn,
  everyPad,
  falseTriggers,
  PLAYERS_AT_LARGE,
  recognised,
} from '../claims/control-claims';
import { libraryPhrases } from '../phrase/library-phrases';
import { phraseOf } from '../phrase/phrase-of';
import { longRunCount, runCount } from '../run-count';

const COWBELL = 56;
const CRASH = 49;
const CONTROLS: readonly CommandControl[] = [
  { command: 'faster', control: { kind: 'pad', note: COWBELL } },
  { command: 'again', control: { kind: 'pad', note: CRASH } },
  { command: 'start', control: { kind: 'switch', sends: 'controller', channel: 1, number: 64 } },
  { command: 'stop', control: { kind: 'switch', sends: 'program', channel: 3, number: 5 } },
  { command: 'mark this spot', control: { kind: 'switch', sends: 'note', channel: 2, number: 3 } },
];
const FREE = controlRules(CONTROLS, EDGE_AND_RIM, undefined, 90);

/** What each message answers: a command, an echo, or nothing. */
function answers(
  messages: readonly (readonly [atMs: number, ...bytes: number[]])[],
  rules: ControlRules = FREE,
): string[] {
  const decoder = new KitDecoder(EDGE_AND_RIM);
  const recogniser = new ControlRecogniser(rules);
  return messages.map(([atMs, status = 0, data1 = 0, data2 = 0]) => {
    const code = recogniser.hear(decoder.read(atMs * 1000, status, data1, data2));
    return code === NO_COMMAND ? '' : code === ECHO ? 'echo' : COMMANDS[code]!;
  });
}
const strikes = (note: number, velocity: number, ...timesMs: number[]) =>
  timesMs.map((atMs) => [atMs, 0x99, note, velocity] as const);

describe('strikes in a row', () => {
  it.each<[string, readonly (readonly [number, ...number[]])[], string[]]>([
    ['three, quick and even', strikes(COWBELL, 90, 0, 200, 400), ['', '', 'faster']],
    ['two', strikes(COWBELL, 90, 0, 200), ['', '']],
    ['gaps of 130 ms', strikes(COWBELL, 90, 0, 130, 260), ['', '', 'faster']],
    ['gaps below 130 ms', strikes(COWBELL, 90, 0, 129, 258), ['', '', '']],
    ['gaps of 300 ms', strikes(COWBELL, 90, 0, 300, 600), ['', '', 'faster']],
    ['gaps above 300 ms', strikes(COWBELL, 90, 0, 301, 602), ['', '', '']],
    ['a gap 1.6 times the other', strikes(COWBELL, 90, 0, 150, 390), ['', '', 'faster']],
    ['a gap more than that', strikes(COWBELL, 90, 0, 150, 391), ['', '', '']],
    ['as soft as a ghost', strikes(COWBELL, 50, 0, 200, 400), ['', '', '']],
    ['above a ghost', strikes(COWBELL, 51, 0, 200, 400), ['', '', 'faster']],
    [
      'a hand elsewhere between',
      [
        [0, 0x99, COWBELL, 90],
        [200, 0x99, COWBELL, 90],
        [300, 0x99, 38, 90],
        [400, 0x99, COWBELL, 90],
      ],
      ['', '', '', ''],
    ],
    [
      'a foot between',
      [
        [0, 0x99, COWBELL, 90],
        [200, 0x99, COWBELL, 90],
        [300, 0x99, 36, 90],
        [400, 0x99, COWBELL, 90],
      ],
      ['', '', '', 'faster'],
    ],
    ['one more than needed', strikes(COWBELL, 90, 0, 200, 400, 600), ['', '', 'faster', 'echo']],
    [
      'bow and edge of one pad',
      [
        [0, 0x99, CRASH, 90],
        [200, 0x99, 55, 90],
        [400, 0x99, CRASH, 90],
      ],
      ['', '', 'again'],
    ],
  ])('%s', (_, messages, expected) => {
    expect(answers(messages)).toEqual(expected);
  });
});

describe('foot switches', () => {
  it('are a note, a controller or a program change of their own channel', () => {
    expect(
      answers([
        [0, 0xb0, 64, 127],
        [50, 0xb0, 64, 0],
        [900, 0xb1, 64, 127],
        [1000, 0xc2, 5],
        [1500, 0xc1, 5],
        [2000, 0x91, 3, 90],
        [2500, 0x99, 3, 90],
      ]),
    ).toEqual(['start', '', '', 'stop', '', 'mark this spot', '']);
  });

  it('are pressed from 64 on (MIDI 1.0), again only once they were let go or send the same again', () => {
    expect(
      answers([
        [0, 0xb0, 64, 63],
        [500, 0xb0, 64, 64],
        [700, 0xb0, 64, 90],
        [900, 0xb0, 64, 63],
        [1400, 0xb0, 64, 127],
        [1900, 0xb0, 64, 127],
      ]),
    ).toEqual(['', 'start', '', '', 'start', 'start']);
  });

  it('bounce within 100 ms', () => {
    expect(
      answers([
        [0, 0xc2, 5],
        [99, 0xc2, 5],
        [250, 0xc2, 5],
      ]),
    ).toEqual(['stop', 'echo', 'stop']);
  });

  it('give none where the kit sends the same', () => {
    const rules = controlRules(
      [
        { command: 'start', control: { kind: 'switch', sends: 'note', channel: 10, number: 38 } },
        {
          command: 'stop',
          control: { kind: 'switch', sends: 'controller', channel: 10, number: 4 },
        },
      ],
      EDGE_AND_RIM,
      undefined,
      90,
    );
    expect(
      answers(
        [
          [0, 0x99, 38, 90],
          [500, 0xb9, 4, 127],
        ],
        rules,
      ),
    ).toEqual(['', '']);
  });
});

describe('how many strikes a phrase leaves', () => {
  const group = (note: number) => padGroups(EDGE_AND_RIM).ofNote[note]!;
  it('three on a free pad, one more for each note in a row, none beyond five', () => {
    expect([0, 1, 2, 3].map(strikesFor)).toEqual([3, 4, 5, undefined]);
  });

  it('counts notes that faults lead over to', () => {
    // At 60 a beat is 1 s, and 0.42 s is near: two faults lead over 1.26 s.
    expect(longestRow([0, 4, 8], 60)).toBe(1);
    expect(longestRow([0, 1.26, 8], 60)).toBe(2);
    expect(longestRow([0, 1.27, 8], 60)).toBe(1);
    expect(longestRow([], 60)).toBe(0);
  });

  it('a snare played through cannot command, a bass drum once a bar can, with more strikes the faster it is', () => {
    const phrase = phraseOf({ grouping: 'R L R L R L R L R L R L R L R K' });
    const beats = padBeats(phrase, EDGE_AND_RIM);
    const rules = (bpm: number) => controlRules(CONTROLS, EDGE_AND_RIM, beats, bpm);
    expect(rules(90).strikes[38]).toBe(0);
    expect(rules(90).strikes[36]).toBe(4);
    expect(rules(90).strikes[COWBELL]).toBe(3);
    expect(rules(240).strikes[36]).toBe(5);
    expect(beats[group(36)]!.slice(0, 2)).toEqual([3.75, 7.75]);
  });
});

it('lawFewerThanNeededNeverCommand: whatever else is struck by hands between', () => {
  fc.assert(
    fc.property(
      fc.array(fc.record({ gapMs: fc.integer({ min: 1, max: 700 }), own: fc.boolean() }), {
        maxLength: 40,
      }),
      (played) => {
        let atMs = 0;
        let row = 0;
        // No three of the pad in a row without the snare between.
        const messages = played.map(({ gapMs, own }) => {
          atMs += gapMs;
          row = own && row < 2 ? row + 1 : 0;
          return [atMs, 0x99, row > 0 ? COWBELL : 38, 100] as const;
        });
        expect(answers(messages).filter((one) => one !== '')).toEqual([]);
      },
    ),
    { numRuns: runCount(300) },
  );
});

describe.each(libraryPhrases())('$name', ({ text }) => {
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error(text);
  it.each(PLAYERS_AT_LARGE)('gives no command by a %s player', (_, player) => {
    expect(falseTriggers(parsed.value, player, longRunCount(60), 88_213)).toBe(0);
  });

  it('leaves pads that command, and hears all that is given on them', () => {
    const count = EDGE_AND_RIM.pads.map((pad) => recognised(parsed.value, 120, pad, 5, 7));
    const of = count.reduce((sum, one) => sum + one.of, 0);
    expect(of).toBeGreaterThan(50);
    expect(count.reduce((sum, one) => sum + one.right, 0)).toBeGreaterThanOrEqual(0.99 * of);
  });
});

it('every command can be given on a free pad', () => {
  const heard = everyPad(EDGE_AND_RIM)
    .slice(-COMMANDS.length)
    .flatMap((one) => {
      const { control } = one;
      if (control.kind !== 'pad') return [];
      const messages = [0, 200, 400].map((atMs) => ({
        timeUs: atMs * 1000,
        status: 0x99,
        data1: control.note,
        data2: 90,
      }));
      return commandsIn(messages, controlRules([one], EDGE_AND_RIM, undefined, 90)).map(
        ({ command }) => command,
      );
    });
  expect(new Set(heard)).toEqual(new Set(COMMANDS));
});
