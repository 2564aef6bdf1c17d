import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { createFaultWatch } from '../../src/kit/faults/fault-watch';
import { KitDecoder } from '../../src/kit/kit-decoder';
import { chance, type Chance } from '../../src/time/chance';
import { ClaimCount, type Claim } from './claim';

/** Written apart from the watch over the hi-hat's controller: a foot, a controller that follows it, a pedal that sounds. */

/** What a foot does on the hi-hat for a whole take. */
export interface HiHatFoot {
  /** Where it rests between steps, 0 down to 1 off, and how far it strays: standard deviation. */
  readonly rest: number;
  readonly restSpread: number;
  /** Share of the beats on which it steps down, so that the pedal sounds. */
  readonly steps: number;
  /** Share of the bars with an open stroke, for which the foot comes up all the way. */
  readonly opens: number;
}

/** Chosen, not measured, but for the foot pressed along: five steps in a row in bars 8 to 10 of the eighth human take are. */
export const HI_HAT_FEET: readonly (readonly [name: string, foot: HiHatFoot])[] = [
  ['stepped on two and four, all up', { rest: 0.8, restSpread: 0.2, steps: 0.5, opens: 0.2 }],
  ['heel and toe rocked', { rest: 0.25, restSpread: 0.12, steps: 0.5, opens: 0.1 }],
  ['held down, pressed along', { rest: 0, restSpread: 0.02, steps: 0.5, opens: 0.1 }],
  ['the same, never open', { rest: 0, restSpread: 0.02, steps: 0.5, opens: 0 }],
  ['held down all through', { rest: 0, restSpread: 0.02, steps: 0, opens: 0 }],
  ['half open all through', { rest: 0.4, restSpread: 0.1, steps: 0.02, opens: 0 }],
  ['no foot on it', { rest: 1, restSpread: 0, steps: 0, opens: 0 }],
];

interface HiHatController {
  readonly kind: 'follows' | 'stuck' | 'absent';
  /** Its value with the foot down, and off. */
  readonly down: number;
  readonly up: number;
  /** Of the foot's way, what it takes for all down. */
  readonly dead: number;
  /** By how much it strays by itself: standard deviation. */
  readonly jitter: number;
  /** It speaks so often at most. */
  readonly everyMs: number;
  /** Whether it speaks before every stroke on the hi-hat, moved or not. */
  readonly speaksAlways: boolean;
  /** Of a stuck one: where, 0 down to 1 off. */
  readonly at: number;
  /** How often the pedal answers the bass drum, the foot being down: faintly, so that the kit's rules may tell. */
  readonly shaken: number;
}

const [BASS_DRUM, SNARE, PEDAL, CLOSED, OPEN] = [36, 38, 44, 42, 46] as const;
const CONTROLLER = 4;
const BEAT_MS = 600;
/** Five minutes. */
const BEATS = 500;

/** Of six, one is stuck and one was never there. Chosen, not measured; the eighth take's is 90 down, and dead for a part of the way. */
function anyController({ next, share }: Chance): HiHatController {
  const kind = (['stuck', 'absent'] as const)[next() % 6] ?? 'follows';
  const high = Math.round(127 * (0.5 + 0.5 * share()));
  const low = Math.max(0, Math.round(high - 127 * (0.3 + 0.7 * share())));
  return {
    kind,
    down: high,
    up: low,
    dead: 0.3 * share(),
    jitter: [0, 0, 0.3, 1][next() % 4]!,
    everyMs: [1, 5, 20, 50][next() % 4]!,
    speaksAlways: next() % 2 === 0,
    at: share(),
    shaken: [0, 0, 0.02, 0.2][next() % 4]!,
  };
}

/**
 * How often the watch over the hi-hat's controller asks of one that follows the foot whether it does, by what it has seen,
 * and how often it asks of one that is stuck.
 */
export function openingWatchClaims(foot: HiHatFoot, takes: number, seed: number): OpeningAsked {
  const counts = {
    'stayed where it was': new ClaimCount('stepped on, and it stayed'),
    'of its range': new ClaimCount('it uses little of its range'),
    'has not spoken': new ClaimCount('it has not spoken'),
  };
  let follow = 0;
  let stuck = 0;
  let stuckTold = 0;
  const random = chance(seed);
  for (let take = 0; take < takes; take++) {
    const controller = anyController(random);
    const said = saidOf(foot, controller, random);
    for (const [words, count] of Object.entries(counts))
      if (said.includes(words)) count.add(controller.kind === 'follows');
    if (controller.kind === 'follows') follow++;
    if (controller.kind !== 'stuck') continue;
    stuck++;
    if (said !== '') stuckTold++;
  }
  return { asked: Object.values(counts).map(({ claim }) => claim), follow, stuck, stuckTold };
}

export interface OpeningAsked {
  /** Wrong where the controller follows the foot. */
  readonly asked: readonly Claim[];
  /** How many controllers follow, how many are stuck, and how many of these are asked about. */
  readonly follow: number;
  readonly stuck: number;
  readonly stuckTold: number;
}

/** What is said of the hi-hat's controller after five minutes. */
function saidOf(foot: HiHatFoot, controller: HiHatController, random: Chance): string {
  const watch = createFaultWatch(FOLLOWING);
  const decoder = new KitDecoder(FOLLOWING);
  const send = (ms: number, status: number, data1: number, data2: number) =>
    watch.receive(decoder.read(Math.round(1000 * ms), status, data1, data2));
  const strike = (ms: number, note: number, velocity: number) =>
    send(ms, 0x99, note, Math.max(1, Math.min(127, Math.round(velocity))));
  let openness = Math.max(0, Math.min(1, foot.rest));
  // A controller speaks when it moves: where it stood before the page listened is not known.
  let sent = valueOf(controller, openness, 0);
  let spokeMs = -Infinity;
  const speak = (ms: number, value: number) => {
    send(ms, 0xb9, CONTROLLER, value);
    sent = value;
    spokeMs = ms;
  };
  const strikeHiHat = (ms: number, note: number, velocity: number) => {
    if (controller.kind !== 'absent' && controller.speaksAlways) speak(ms, sent);
    strike(ms, note, velocity);
  };
  const moveTo = (fromMs: number, toMs: number, to: number) => {
    const from = openness;
    openness = Math.max(0, Math.min(1, to));
    if (controller.kind === 'absent') return;
    for (let ms = fromMs; ms < toMs; ms += 5) {
      const way = from + ((openness - from) * (ms + 5 - fromMs)) / (toMs - fromMs);
      const value = valueOf(controller, way, controller.jitter * random.normal());
      if (value !== sent && ms - spokeMs >= controller.everyMs) speak(ms, value);
    }
  };
  for (let beat = 0; beat < BEATS; beat++) {
    const ms = 1000 + beat * BEAT_MS;
    const steps = random.share() < foot.steps;
    const opens = beat % 4 === 3 && random.share() < foot.opens;
    moveTo(ms - 200, ms - 120, foot.rest + foot.restSpread * random.normal());
    if (steps) {
      moveTo(ms - 80, ms, 0);
      strikeHiHat(ms, PEDAL, 65 + 10 * random.normal());
    }
    strike(ms + 8 * random.normal(), beat % 2 === 0 ? BASS_DRUM : SNARE, 95 + 10 * random.normal());
    if (beat % 2 === 0 && openness < 0.1 && random.share() < controller.shaken)
      strike(ms + 3 * random.normal(), PEDAL, 18 + 8 * random.normal());
    strikeHiHat(ms + 10 + 8 * random.normal(), CLOSED, 70 + 15 * random.normal());
    if (opens) moveTo(ms + 150, ms + 250, 1);
    strikeHiHat(ms + 300 + 8 * random.normal(), opens ? OPEN : CLOSED, 70 + 15 * random.normal());
  }
  return watch
    .report()
    .filter(({ fault }) => fault === 'hi-hat controller')
    .map(({ sentence }) => sentence)
    .join(' ');
}

/** Its strokes are open or closed as the controller says. */
const FOLLOWING = {
  ...EDGE_AND_RIM,
  pads: EDGE_AND_RIM.pads.map((pad) =>
    pad.note === CLOSED ? { ...pad, followsOpening: true } : pad,
  ),
};

function valueOf(
  { kind, down, up, dead, at }: HiHatController,
  openness: number,
  stray: number,
): number {
  const way = kind === 'stuck' ? at : Math.max(0, (openness - dead) / (1 - dead));
  return Math.max(0, Math.min(127, Math.round(down + (up - down) * way + stray)));
}
