import { COMMANDS, type Command } from '../../src/control/command';
import type { CommandControl } from '../../src/control/control';
import { padBeats } from '../../src/control/pad-beats';
import { controlRules, type ControlRules } from '../../src/control/control-rules';
import { ControlRecogniser, ECHO, NO_COMMAND } from '../../src/control/control-recogniser';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import type { Kit, Pad } from '../../src/kit/kit';
import { KitDecoder } from '../../src/kit/kit-decoder';
import { padGroups } from '../../src/kit/pad-groups';
import type { RawMessage } from '../../src/kit/raw-message';
import type { Plan } from '../../src/match/plan';
import { timedNotes } from '../../src/match/timed-notes';
import { realignment } from '../../src/phrase/layers/realignment';
import type { Passage } from '../../src/phrase/model/passage';
import type { Phrase } from '../../src/phrase/model/phrase';
import { simulate } from '../../src/take/simulate';
import { chance, type Chance } from '../../src/time/chance';
import { steadyTempo } from '../../src/time/tempo';

/** How long a take is played, beside its count-in of a bar. */
const TAKE_US = 20_000_000;
const BPM = { least: 40, most: 240 };

/** Every pad and pedal of a kit gives a command: the worst that a player can choose. */
export const everyPad = (kit: Kit): readonly CommandControl[] =>
  padGroups(kit).names.map((name, i) => ({
    command: COMMANDS[i % COMMANDS.length]!,
    control: { kind: 'pad', note: kit.pads.find(({ group }) => group === name)!.note },
  }));

/** Whoever plays, and the kit that answers: shares are of the notes. */
export interface SloppyPlayer {
  readonly spreadMs: number;
  readonly missed: number;
  /** Struck on another drum of the phrase's usual ones, or another pad of the kit. */
  readonly wrongVoices: number;
  /** Struck once more, and a stray hit anywhere on the kit. */
  readonly extra: number;
  readonly stray: number;
  /** A stick that bounces on, a flam or a drag that is not written. */
  readonly bounce: number;
  readonly grace: number;
  /** The kit: second triggers, and pads that are shaken. */
  readonly doubleTrigger: number;
  readonly crosstalk: number;
  /** Whether a free foot keeps time in beats, the count-in included. */
  readonly keepsTime: boolean;
}

/** Somebody who can play the phrase, and somebody who cannot. */
export const PLAYERS_AT_LARGE: readonly (readonly [name: string, player: SloppyPlayer])[] = [
  [
    'steady',
    {
      spreadMs: 10,
      missed: 0.01,
      wrongVoices: 0.005,
      extra: 0.01,
      stray: 0.003,
      bounce: 0.01,
      grace: 0.02,
      doubleTrigger: 0.02,
      crosstalk: 0.05,
      keepsTime: false,
    },
  ],
  [
    'sloppy',
    {
      spreadMs: 35,
      missed: 0.08,
      wrongVoices: 0.03,
      extra: 0.05,
      stray: 0.01,
      bounce: 0.04,
      grace: 0.06,
      doubleTrigger: 0.06,
      crosstalk: 0.15,
      keepsTime: true,
    },
  ],
];

export const planFor = (phrase: Phrase, passages: readonly Passage[], bpm: number): Plan => ({
  phrase,
  passages,
  tempo: steadyTempo(bpm),
  windows: {},
});

/** One layer, or from each realignment on the next one. */
function passagesFor(phrase: Phrase, random: Chance): readonly Passage[] {
  const layer = 1 + (random.next() % phrase.layers.length);
  if (random.next() % 3 > 0) return [{ fromBar: 1, layer }];
  const passages: Passage[] = [];
  let fromBar = 1;
  for (let next = 1; next <= phrase.layers.length; next++) {
    passages.push({ fromBar, layer: next });
    fromBar += realignment(phrase, next).bars;
  }
  return passages;
}

/** Everything that arrives from a take of TAKE_US, in order of arrival. */
export function sloppyTake(
  phrase: Phrase,
  bpm: number,
  player: SloppyPlayer,
  random: Chance,
  kit: Kit = EDGE_AND_RIM,
): RawMessage[] {
  const plan = planFor(phrase, passagesFor(phrase, random), bpm);
  const notes = timedNotes(plan, TAKE_US);
  const { spreadMs, missed, wrongVoices, extra } = player;
  const faults = { spreadMs, missed, wrongVoices, extra, velocitySpread: 12, loudGhosts: 0.2 };
  const { messages } = simulate(notes, faults, random.next(), kit);
  const anyPad = () => kit.pads[random.next() % kit.pads.length]!;
  const sent = messages.flatMap((message): RawMessage[] => {
    if (message.status >> 4 !== 9) return [message];
    const { timeUs, data1, data2 } = message;
    const also = (afterMs: number, note: number, velocity: number): RawMessage => ({
      timeUs: timeUs + Math.round(afterMs * 1000),
      status: 0x99,
      data1: note,
      data2: Math.max(1, Math.min(127, Math.round(velocity))),
    });
    const added = [message];
    if (random.share() < player.stray)
      added.push(also(random.share() * 600, anyPad().note, 30 + random.share() * 90));
    if (random.share() < player.bounce)
      added.push(also(70 + random.share() * 60, data1, data2 * (0.4 + random.share() * 0.4)));
    if (random.share() < player.grace) {
      added.push(also(-30 - random.share() * 15, data1, 25 + random.share() * 50));
      if (random.share() < 0.5)
        added.push(also(-65 - random.share() * 20, data1, 25 + random.share() * 50));
    }
    if (random.share() < player.doubleTrigger)
      added.push(also(5 + random.share() * 60, data1, data2 * (0.3 + random.share() * 0.7)));
    if (random.share() < player.crosstalk)
      added.push(also(-6 + random.share() * 14, anyPad().note, data2 * random.share() * 0.4));
    return added;
  });
  return [...sent, ...(player.keepsTime ? footBeats(phrase, bpm, random, kit) : [])].sort(
    (a, b) => a.timeUs - b.timeUs,
  );
}

/** The hi-hat's foot on every beat from the count-in on. */
function footBeats(phrase: Phrase, bpm: number, random: Chance, kit: Kit): RawMessage[] {
  const pedal = kit.pads.find(({ voice }) => voice === 'hi-hat pedal')!;
  const beatUs = 60e6 / bpm;
  const first = -phrase.meter.beatsPerBar;
  return Array.from({ length: Math.floor(TAKE_US / beatUs) - first }, (_, i) => ({
    timeUs: Math.round((first + i) * beatUs + random.normal() * 15_000),
    status: 0x99,
    data1: pedal.note,
    data2: 60 + (random.next() % 40),
  }));
}

/** The commands that messages give; feet are not heard before bar 1. */
export function commandsIn(
  messages: readonly RawMessage[],
  rules: ControlRules,
  kit: Kit = EDGE_AND_RIM,
): readonly { readonly command: Command; readonly timeUs: number }[] {
  const decoder = new KitDecoder(kit);
  const recogniser = new ControlRecogniser(rules);
  return messages.flatMap(({ timeUs, status, data1, data2 }) => {
    recogniser.hearsFeet = timeUs >= 0;
    const code = recogniser.hear(decoder.read(timeUs, status, data1, data2));
    return code === NO_COMMAND || code === ECHO ? [] : [{ command: COMMANDS[code]!, timeUs }];
  });
}

/** How many of `takes` of a phrase, at tempi from 40 to 240, give a command that nobody meant. */
export function falseTriggers(
  phrase: Phrase,
  player: SloppyPlayer,
  takes: number,
  seed: number,
): number {
  const random = chance(seed);
  const beats = padBeats(phrase, EDGE_AND_RIM);
  const rulesAt = new Map<number, ControlRules>();
  let count = 0;
  for (let take = 0; take < takes; take++) {
    const bpm = BPM.least + (random.next() % (BPM.most - BPM.least + 1));
    const rules =
      rulesAt.get(bpm) ?? controlRules(everyPad(EDGE_AND_RIM), EDGE_AND_RIM, beats, bpm);
    rulesAt.set(bpm, rules);
    if (commandsIn(sloppyTake(phrase, bpm, player, random), rules).length > 0) count++;
  }
  return count;
}

/** How many of `times` a command is recognised that is given as it is described, while the feet and the kit go on. */
export function recognised(
  phrase: Phrase,
  bpm: number,
  pad: Pad,
  times: number,
  seed: number,
): { readonly right: number; readonly of: number } {
  const random = chance(seed);
  const kit = EDGE_AND_RIM;
  const rules = controlRules(
    [{ command: 'faster', control: { kind: 'pad', note: pad.note } }],
    kit,
    padBeats(phrase, kit),
    bpm,
  );
  const strikes = rules.strikes[pad.note]!;
  if (strikes === 0) return { right: 0, of: 0 };
  let right = 0;
  for (let time = 0; time < times; time++) {
    const gapMs = 160 + random.share() * 90;
    let atUs = 1_000_000;
    const messages: RawMessage[] = [];
    const add = (timeUs: number, note: number, velocity: number) =>
      messages.push({
        timeUs: Math.round(timeUs),
        status: 0x99,
        data1: note,
        data2: Math.round(velocity),
      });
    for (let strike = 0; strike < strikes; strike++) {
      const velocity = Math.min(127, 75 + random.share() * 50);
      add(atUs, pad.note, velocity);
      if (random.share() < 0.1)
        add(atUs + 5000 + random.share() * 15_000, pad.note, velocity * 0.4);
      if (random.share() < 0.2)
        add(
          atUs - 3000 + random.share() * 6000,
          kit.pads[random.next() % kit.pads.length]!.note,
          velocity * 0.15,
        );
      atUs += 1000 * gapMs * (1 + 0.05 * random.normal());
    }
    if (rules.isFoot[pad.note] === 0)
      for (let beat = 0; beat < 4; beat++)
        add(900_000 + (beat * 60e6) / bpm + random.normal() * 10_000, 36, 90);
    messages.sort((a, b) => a.timeUs - b.timeUs);
    const given = commandsIn(messages, rules);
    if (given.length === 1 && given[0]!.command === 'faster') right++;
  }
  return { right, of: times };
}
