import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { OPENING_CONTROLLER } from '../../src/kit/learn/hi-hat-pedal';
import { hear, startLearning } from '../../src/kit/learn/learn';
import { stepsFor } from '../../src/kit/learn/learn-steps';
import { struckKit } from '../../src/kit/learn/struck-kit';
import { chance, type Chance } from '../../src/time/chance';
import { ClaimCount, type Claim } from './claim';

/** Whoever is asked for the hi-hat closed and open. */
export interface PedalPlayer {
  /** How far the foot is from all down or all up, a share of the way: standard deviation. */
  readonly foot: number;
  /** Share of the strokes with the foot where it was not asked for. */
  readonly lapses: number;
}

/** Chosen, not measured. */
export const PEDAL_PLAYERS: readonly (readonly [name: string, player: PedalPlayer])[] = [
  ['done as asked', { foot: 0.05, lapses: 0 }],
  ['with a slack foot', { foot: 0.2, lapses: 0 }],
  ['one stroke in a hundred the other way', { foot: 0.05, lapses: 0.01 }],
];

interface Pedal {
  readonly controller: 'moves' | 'stays' | 'silent';
  /** Its value with the foot down, and off. */
  readonly down: number;
  readonly up: number;
  /** By how much it strays where nobody moves it: standard deviation. */
  readonly jitter: number;
  /** Notes with the foot down, and off. */
  readonly closed: number;
  readonly open: number;
}

/** Notes of EDGE_AND_RIM, which reads a high controller as closed. */
const [PEDAL, CLOSED, OPEN] = [44, 42, 46] as const;

/** Half of them tell open from closed by their notes; of eight, one stays where it is, one is silent, two are reversed. Chosen, not measured. */
function anyPedal({ next, share }: Chance): Pedal {
  const kind = next() % 8;
  const controller = kind === 0 ? 'stays' : kind === 1 ? 'silent' : 'moves';
  // From all of the range down to an eighth of it.
  const high = Math.round(127 * (0.5 + 0.5 * share()));
  const low = Math.max(0, Math.round(high - 127 * (0.125 + 0.875 * share())));
  const isReversed = kind === 2 || kind === 3;
  const hasNotes = next() % 2 === 0;
  const [closed, open] = !hasNotes
    ? [CLOSED, CLOSED]
    : kind === 4
      ? [OPEN, CLOSED]
      : [CLOSED, OPEN];
  return {
    controller,
    down: isReversed ? low : high,
    up: isReversed ? high : low,
    jitter: next() % 2,
    closed,
    open,
  };
}

/** How often the first start says of `pedals` what is not so, by what it says. */
export function pedalClaims(player: PedalPlayer, pedals: number, seed: number): readonly Claim[] {
  const counts = {
    notes: new ClaimCount('the pedal is reversed'),
    controller: new ClaimCount('its controller is reversed'),
  };
  const random = chance(seed);
  for (let i = 0; i < pedals; i++) {
    const pedal = anyPedal(random);
    const moves = pedal.controller === 'moves';
    const said = remarksOn(pedal, player, random).join(' ');
    if (said.includes('The pedal is reversed')) counts.notes.add(pedal.closed !== OPEN);
    if (said.includes('controller is reversed'))
      counts.controller.add(!moves || pedal.down > pedal.up);
  }
  return Object.values(counts).map(({ claim }) => claim);
}

/** What is said after the foot alone, a stroke closed and one open, two seconds apart. */
function remarksOn(pedal: Pedal, player: PedalPlayer, random: Chance): readonly string[] {
  let learning = startLearning(stepsFor(['hi-hat closed', 'hi-hat open']));
  let openness = 1;
  const send = (atMs: number, status: number, data1: number, data2: number) =>
    (learning = hear(learning, atMs, status, data1, data2));
  const moveTo = (atMs: number, to: number) => {
    const from = openness;
    openness = to;
    if (pedal.controller === 'silent') return;
    for (let step = 1; step <= 5; step++) {
      const way = pedal.controller === 'stays' ? 0 : from + ((to - from) * step) / 5;
      const value = pedal.down + (pedal.up - pedal.down) * way + pedal.jitter * random.normal();
      const sent = Math.max(0, Math.min(127, Math.round(value)));
      send(atMs - 300 + 50 * step, 0xb9, OPENING_CONTROLLER, sent);
    }
  };
  const strike = (atMs: number, asked: number) => {
    const aim = random.share() < player.lapses ? 1 - asked : asked;
    const off = Math.min(1, Math.abs(player.foot * random.normal()));
    moveTo(atMs, aim === 0 ? off : 1 - off);
    send(atMs, 0x99, openness < 0.5 ? pedal.closed : pedal.open, 90);
  };
  moveTo(2000, 0);
  send(2000, 0x99, PEDAL, 90);
  strike(4000, 0);
  strike(6000, 1);
  return struckKit(learning, EDGE_AND_RIM).remarks;
}
