import { createFaultWatch } from '../../kit/faults/fault-watch';
import type { KitFault } from '../../kit/faults/kit-fault';
import type { Kit } from '../../kit/kit';
import { isStruck, type KitMessage } from '../../kit/kit-decoder';
import { STROKE, UNMAPPED } from '../../kit/kit-reader';
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

/** A note that was struck and that the kit has no pad for. */
export interface UnknownNote {
  /** MIDI note number. */
  readonly note: number;
  readonly strokes: number;
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
  #unknown: readonly UnknownNote[] = $state.raw([]);
  /** Strokes of each note that came without a pad to it. */
  readonly #unknownStrokes = new Uint32Array(128);
  #hasUnknown = false;
  /** By note: 1 where nothing more is said of it. */
  readonly #leftOut = new Uint8Array(128);
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

  /** Struck notes that stand for nothing yet, most strokes first; read a few times a second. */
  get unknown(): readonly UnknownNote[] {
    return this.#unknown;
  }

  /** Says nothing more of a note that stands for nothing: it is no pad that is played. */
  leaveOut(note: number): void {
    this.#leftOut[note] = 1;
    this.#readUnknown();
  }

  /** The notes mean something else from now on. */
  useKit(kit: Kit): void {
    this.#kit = kit;
    for (const { note } of kit.pads) this.#unknownStrokes[note] = 0;
    this.#readUnknown();
    this.#faultWatch = createFaultWatch(kit);
  }

  /** Forgets the messages and the kit's faults so far. */
  countAnew(): void {
    this.trace.clear();
    this.#unknownStrokes.fill(0);
    this.#readUnknown();
    this.#faultWatch = createFaultWatch(this.#kit);
  }

  /** A message of the kit, and when it was handled, performance time in ms. Live path. */
  receive(message: KitMessage, handledMs: number): void {
    this.#faultWatch.receive(message);
    this.trace.add(message, handledMs);
    if (message.kind !== UNMAPPED) return;
    this.#unknownStrokes[message.pad]!++;
    this.#hasUnknown = true;
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
    if (this.#hasUnknown) this.#readUnknown();
  };

  #readUnknown(): void {
    this.#hasUnknown = false;
    this.#unknown = Array.from(this.#unknownStrokes, (strokes, note) => ({ note, strokes }))
      .filter(({ note, strokes }) => strokes > 0 && this.#leftOut[note] === 0)
      .sort((a, b) => b.strokes - a.strokes);
  }
}
