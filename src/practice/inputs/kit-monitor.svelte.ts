import { createFaultWatch } from '../../kit/faults/fault-watch';
import type { KitFault } from '../../kit/faults/kit-fault';
import type { Kit } from '../../kit/kit';
import { isStruck, type KitMessage } from '../../kit/kit-decoder';
import { STROKE } from '../../kit/kit-reader';
import { VOICES, type Voice } from '../../phrase/model/voice';
import { MessageTrace } from './message-trace';

/** The stroke shown last, for the kit screen. */
export interface MonitoredStroke {
  /** MIDI note number. */
  readonly note: number;
  /** Undefined when the kit has no pad for the note. */
  readonly voice: Voice | undefined;
  readonly velocity: number;
}

/** A stroke is shown this long after it came, and none in between, ms. Chosen, not measured. */
const SHOW_AFTER_MS = 120;

/** What kit and hands have sent of late, for the screens that look at it. */
export class KitMonitor {
  /** The last messages of the kit. */
  readonly trace = new MessageTrace();
  #kit: Kit;
  #faultWatch;
  #heard: MonitoredStroke | undefined = $state.raw();
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(kit: Kit) {
    this.#kit = kit;
    this.#faultWatch = createFaultWatch(kit);
  }

  /** What the kit does that is not the player's doing, so far. */
  get faults(): readonly KitFault[] {
    return this.#faultWatch.report();
  }
  /** The stroke shown last, read a few times a second. */
  get heard(): MonitoredStroke | undefined {
    return this.#heard;
  }

  /** The notes mean something else from now on. */
  useKit(kit: Kit): void {
    this.#kit = kit;
    this.#faultWatch = createFaultWatch(kit);
  }

  /** Forgets the messages and the kit's faults so far. */
  countAnew(): void {
    this.trace.clear();
    this.#faultWatch = createFaultWatch(this.#kit);
  }

  /** A message of the kit, and when it was handled, performance time in ms. Live path. */
  receive(message: KitMessage, handledMs: number): void {
    this.#faultWatch.receive(message);
    this.trace.add(message, handledMs);
  }

  /** A message of somebody who strikes by hand: shown in a moment. Live path. */
  show(message: KitMessage): void {
    if (this.#timer !== undefined || !isStruck(message)) return;
    const voice = message.kind === STROKE ? message.voiceNumber : -1;
    this.#timer = setTimeout(this.#shown, SHOW_AFTER_MS, message.pad, voice, message.velocity);
  }

  readonly #shown = (note: number, voice: number, velocity: number): void => {
    this.#timer = undefined;
    this.#heard = { note, voice: VOICES[voice], velocity };
  };
}
