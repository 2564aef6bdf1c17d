import type { KitDecoder, KitMessage } from '../../kit/kit-decoder';
import type { RawMessage } from '../../kit/raw-message';
import { GRACE_US } from '../../match/follower';
import type { Plan } from '../../match/plan';
import type { ClickChoice } from '../../sound/click-pattern';
import type { ReferenceMode } from '../../sound/session-sounds';
import type { LiveTake } from '../../live/live-take';
import { markAt } from '../../live/mark-at';
import {
  stillToCome,
  withUpcoming,
  type Upcoming,
  type UpcomingLayer,
  type UpcomingTempo,
} from '../../live/upcoming';
import { pickupNotes } from '../../phrase/layers/expand';
import { gridAt } from '../../phrase/model/grid';
import { beats, type Beats } from '../../time/beats';
import { countBetween, type SpokenCount } from '../count-between';
import { soundsBetween } from '../sounds-between';
import { TakeRoom } from './take-room';
import { LEAD_IN_MS, Transport, type TransportDependencies } from '../transport';

/** The target is laid out this far ahead, so that the lane always has something to show. Chosen, not measured. */
const AHEAD_US = 8_000_000;
/** Notes this far beyond a stroke may compete for it: more than any hit window and offset. Chosen, not measured. */
const BEYOND_STROKES_US = 2_000_000;
/** A take ends this much before it has no room, so that no stroke comes too late for it. Chosen, not measured. */
const ROOM_AHEAD_US = 2_000_000;
/** A change of tempo or layer leaves this much warning. Chosen, not measured: more than any hit window. */
export const NOTICE_US = 1_200_000;

export interface TakeRunOptions {
  readonly take: LiveTake;
  readonly click: () => ClickChoice;
  readonly reference: () => ReferenceMode;
  /** What is counted aloud beside the click; nothing unless given. */
  readonly count?: () => SpokenCount;
  /** Called when cycle `at` (0-based, of all laid out) is over and its verdicts are in. */
  readonly onCycle: (at: number) => void;
  /** Called about ten times a second. */
  readonly onTick?: () => void;
  /** Called with the time of each message, from bar 1 beat 1. Live path. */
  readonly onMessage?: (stampUs: number) => void;
  /** Called when what was played has been read again by another kit: `take` is another one. */
  readonly onReadAgain?: () => void;
  /** How far it may go on; as far as a short file does unless given. */
  readonly room?: TakeRoom;
  /** Called at each tick once it can go on no longer; what is struck from then on does not belong to it. */
  readonly onFull?: () => void;
}

/** A message with which a command was given; the decoder's number of its stroke, -1 where it is none. */
export interface CommandMessage extends RawMessage {
  readonly stroke: number;
}

/**
 * One take from its count-in until it is stopped: keeps the target laid out ahead, and the take's strokes and time
 * moving.
 */
export class TakeRun {
  readonly #options: TakeRunOptions;
  readonly #transport: Transport;
  #take: LiveTake;
  #cyclesTold = 0;
  /** The target is laid out up to here, integer microseconds. */
  #laidUs = -Infinity;
  /** It is known to have room up to here, integer microseconds. */
  #roomUs = 0;
  readonly #room: TakeRoom;

  constructor(dependencies: TransportDependencies, options: TakeRunOptions) {
    const { take, click, reference, count, room = new TakeRoom() } = options;
    const { timeline } = take;
    this.#take = take;
    this.#room = room;
    this.#options = options;
    this.#transport = new Transport(dependencies, {
      leadInMs: LEAD_IN_MS.countIn,
      fromUs: timeline.startUs,
      sounds: (fromUs, toUs) => {
        const sounds = soundsBetween(timeline, click(), reference(), fromUs, toUs);
        if (!count) return sounds;
        const words = countBetween(timeline, count(), fromUs, toUs);
        return [...sounds, ...words].sort((a, b) => a.timeUs - b.timeUs);
      },
      timeline,
      onMessage: (stampUs, message) => this.#receive(stampUs, message),
      onKit: (decoder) => this.#readAgain(decoder),
      onTick: () => this.#tick(),
    });
    this.#layAhead();
  }

  get take(): LiveTake {
    return this.#take;
  }

  /** What is due, with every change that is decided. */
  get plan(): Plan {
    return this.#take.timeline.plan;
  }

  /** The playhead: integer microseconds from bar 1 beat 1. */
  nowUs(): number {
    return this.#transport.nowUs();
  }

  /** The bar the playhead is in, 1-based; below 1 in the count-in. */
  get bar(): number {
    return markAt(this.take.timeline.marks, this.nowUs())?.bar ?? 0;
  }

  /** Whether the playhead is ahead of bar 1, or where a player who is brought back is counted in. */
  get isCountingIn(): boolean {
    return markAt(this.take.timeline.marks, this.nowUs())?.isCountIn ?? true;
  }

  /** Performance time of bar 1 beat 1, integer microseconds. */
  get originUs(): number {
    return this.#transport.originUs;
  }

  /** A message of it gave a command to the app: it is no stroke of the take. Its time is performance time. */
  takeCommand({ timeUs, status, data1, data2, stroke }: CommandMessage): void {
    this.#take.takeCommand(timeUs - this.originUs, status, data1, data2, stroke);
  }

  /** @param atUs integer microseconds from bar 1 beat 1 */
  markSpot(atUs: number): void {
    this.#take.commands.markSpot(atUs);
  }

  start(): void {
    this.#transport.start();
  }

  /** Another tempo from the next cycle start that leaves notice. */
  changeTempo(bpm: number): UpcomingTempo {
    const fromUs = this.#earliestChangeUs();
    const { timeline } = this.take;
    const { from, startUs, firstNote } = timeline.changeTempo(bpm, fromUs);
    this.#layAgain(fromUs, firstNote);
    return { bpm, atUs: startUs, ...barPlace(from, timeline.plan.phrase.meter.beatsPerBar) };
  }

  /** Another layer from the next realignment that leaves notice. */
  changeLayer(layer: number): UpcomingLayer {
    const fromUs = this.#earliestChangeUs();
    const { timeline } = this.take;
    const { bar, firstNote } = timeline.changeLayer(layer, fromUs);
    this.#layAgain(fromUs, firstNote);
    return upcomingLayer(timeline.plan, layer, bar);
  }

  /** The target waits for a player who is so many partials late, early negative; what comes of it. */
  waitForPlayer(partials: number): readonly Upcoming[] {
    const fromUs = this.#earliestChangeUs();
    const { timeline } = this.take;
    const { passage, from, firstNote } = timeline.waitForPlayer(partials, fromUs);
    this.#layAgain(fromUs, firstNote);
    const { phrase, tempo, passages } = timeline.plan;
    const wait = {
      waitPartials: partials,
      subdivision: gridAt(phrase, passage.layer).subdivision,
      atUs: tempo.usAt(from),
      ...barPlace(from, phrase.meter.beatsPerBar),
    };
    const last = passages.at(-1)!;
    const { layer, fromBar } = last;
    return last === passage ? [wait] : [wait, upcomingLayer(timeline.plan, layer, fromBar)];
  }

  /** The player is brought back with a count-in over the click that runs. */
  bringBack(): readonly Upcoming[] {
    const fromUs = this.#earliestChangeUs();
    const { timeline } = this.take;
    const { passage, from, firstNote } = timeline.bringBack(fromUs);
    this.#layAgain(fromUs, firstNote);
    const { countInBars = 0, fromBar, layer } = passage;
    const { tempo, passages } = timeline.plan;
    const back = { countInBars, bar: fromBar - countInBars, atUs: tempo.usAt(from) };
    return passages.at(-2)?.layer === layer
      ? [back]
      : [back, upcomingLayer(timeline.plan, layer, fromBar)];
  }

  /** What is to come of what was known, with changes that have been decided since. */
  upcomingWith(known: readonly Upcoming[], changes: readonly Upcoming[]): readonly Upcoming[] {
    const { tempo, phrase, passages } = this.plan;
    return changes.reduce<readonly Upcoming[]>(
      (all, change) => withUpcoming(all, change, tempo, phrase.meter.beatsPerBar),
      stillToCome(known, passages),
    );
  }

  /** What sounds has changed, though not what is due. */
  renewSounds(): void {
    this.#transport.renewSounds();
  }

  stop(): void {
    this.#transport.stop();
  }

  #receive(stampUs: number, message: KitMessage): void {
    if (stampUs > this.#roomUs && !this.#reachesTo(stampUs)) return;
    this.#options.onMessage?.(stampUs);
    // After the page has stood still for long, strokes may come before the pump has caught up.
    if (stampUs + BEYOND_STROKES_US > this.#laidUs) this.#layAhead();
    this.#take.receive(stampUs, message);
  }

  /** The notes of the kit mean something else, from the take's first stroke on; the take goes on. */
  #readAgain(decoder: KitDecoder): void {
    this.#take = this.#take.readWith(decoder, this.#transport.originUs);
    this.#take.advance(this.nowUs());
    this.#options.onReadAgain?.();
  }

  /** Room is looked for ahead, so that few messages have to. */
  #reachesTo(atUs: number): boolean {
    if (!this.#room.reachesTo(this.#take, atUs)) return false;
    this.#roomUs = Math.max(this.#roomUs, atUs);
    return true;
  }

  #tick(): void {
    if (!this.#reachesTo(Math.max(0, this.nowUs()) + ROOM_AHEAD_US)) {
      this.#options.onFull?.();
      return;
    }
    this.#layAhead();
    this.take.advance(this.nowUs());
    this.#tellCycles();
    this.#options.onTick?.();
  }

  #tellCycles(): void {
    const nowUs = this.nowUs();
    const { cycles } = this.take.timeline;
    for (;;) {
      const cycle = cycles[this.#cyclesTold];
      if (!cycle || cycle.endUs + this.take.windowUs + GRACE_US > nowUs) return;
      this.#options.onCycle(this.#cyclesTold++);
    }
  }

  #earliestChangeUs(): number {
    return Math.max(0, this.nowUs() + NOTICE_US);
  }

  #layAgain(fromUs: number, firstNote: number): void {
    this.#take.dropNotesFrom(firstNote);
    this.#layAhead();
    this.#transport.renewSounds(fromUs);
  }

  #layAhead(): void {
    this.#laidUs = Math.max(0, this.nowUs()) + AHEAD_US;
    this.#take.timeline.extendTo(this.#laidUs);
    this.#take.sync();
  }
}

function upcomingLayer({ phrase, tempo }: Plan, layer: number, bar: number): UpcomingLayer {
  const atUs = tempo.usAt(beats((bar - 1) * phrase.meter.beatsPerBar));
  return { layer, bar, atUs, hasPickup: pickupNotes(phrase, layer).length > 0 };
}

/** The bar, 1-based, and the exact beat in it of a place that is counted in beats from bar 1 beat 1. */
function barPlace(
  place: Beats,
  beatsPerBar: number,
): { readonly bar: number; readonly beat: Beats } {
  const bar = Math.floor(place.valueOf() / beatsPerBar) + 1;
  return { bar, beat: place.sub((bar - 1) * beatsPerBar).add(1) };
}
