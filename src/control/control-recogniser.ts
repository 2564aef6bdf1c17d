import type { KitMessage } from '../kit/kit-decoder';
import { STROKE } from '../kit/kit-reader';
import { GENUINE } from '../kit/pad-fault';
import { SWITCH_ON } from './control';
import type { ControlRules } from './control-rules';
import { LEAST_GAP_US, MOST_GAP_US, MOST_UNEVEN, SAME_STRIKE_US } from './strike-gaps';

/** What `hear` answers beside an index into COMMANDS. */
export const NO_COMMAND = -1;
/** One strike more than the command needed: it gives none, and is no stroke of the playing either. */
export const ECHO = -2;

/** Strikes in a row at most. */
const ROOM = 8;
/** A strike this near a much stronger one of another pad is shaken out of its pad. Chosen, not measured. */
const SHAKEN_US = 20_000;
/** And has at most this share of its velocity. Chosen, not measured: three times what is set aside as crosstalk. */
const SHAKEN_SHARE = 0.5;
/** From this velocity on a hand's stroke parts presses of a foot. Chosen, not measured: more than a pad is shaken. */
const PARTS_FEET_FROM = 40;
/** A foot switch that sends again this soon has bounced. Chosen, not measured. */
const SWITCH_BOUNCE_US = 100_000;

const NOTE_ON = 0x9;
const CONTROL_CHANGE = 0xb;
const PROGRAM_CHANGE = 0xc;

/**
 * Hears commands in what a kit sends: strikes in a row on a pad, quick, even, firm, and with nothing else struck by a
 * hand between them; or a foot switch. Columns of plain numbers: nothing is allocated per message.
 */
export class ControlRecogniser {
  /** The messages of the command that was given last, in order of time. */
  strikeCount = 0;
  readonly strikeUs = new Float64Array(ROOM);
  readonly strikeStatus = new Uint8Array(ROOM);
  readonly strikeData1 = new Uint8Array(ROOM);
  readonly strikeData2 = new Uint8Array(ROOM);
  /** The decoder's number of each stroke; -1 for a foot switch. */
  readonly strikeStroke = new Int32Array(ROOM);
  /** Whether feet are heard: they keep time in a count-in. */
  hearsFeet = true;
  #rules: ControlRules;
  /** Strikes so far of a row that may become a command; on which pad; and its number of strikes. */
  #row = 0;
  #group = -1;
  #command = NO_COMMAND;
  #needs = 0;
  #isFoot = 0;
  /** The pad whose command was given last, until its next strike is far enough away. */
  #echoGroup = -1;
  #echoUs = -Infinity;
  /** The last stroke of all. */
  #lastUs = -Infinity;
  #lastGroup = -1;
  #lastVelocity = 0;
  readonly #switchUs: Float64Array;
  readonly #switchValue: Int16Array;

  constructor(rules: ControlRules) {
    this.#rules = rules;
    this.#switchUs = new Float64Array(rules.commandOfSwitch.length).fill(-Infinity);
    this.#switchValue = new Int16Array(rules.commandOfSwitch.length).fill(-1);
  }

  /** Other rules from now on: a row that was begun is forgotten. */
  follow(rules: ControlRules): void {
    this.#rules = rules;
    this.#row = 0;
    this.#echoGroup = -1;
  }

  /** Index into COMMANDS, NO_COMMAND or ECHO; unless it is NO_COMMAND the columns name what it was given with. Live path. */
  hear(message: KitMessage): number {
    const pressed = this.#hearSwitch(message);
    if (pressed !== NO_COMMAND) return pressed;
    if (message.kind !== STROKE || message.setAside !== GENUINE) return NO_COMMAND;
    const answer = this.#hearStroke(message);
    this.#lastUs = message.timeUs;
    this.#lastGroup = this.#rules.group[message.pad]!;
    this.#lastVelocity = message.velocity;
    return answer;
  }

  #hearStroke(message: KitMessage): number {
    const { timeUs, pad, velocity } = message;
    const rules = this.#rules;
    const group = rules.group[pad]!;
    const isFoot = rules.isFoot[pad]!;
    const isShaken =
      group !== this.#lastGroup &&
      Math.abs(timeUs - this.#lastUs) <= SHAKEN_US &&
      velocity <= this.#lastVelocity * SHAKEN_SHARE;
    if (isShaken) return NO_COMMAND;
    if (group === this.#echoGroup) {
      const sinceUs = timeUs - this.#echoUs;
      if (sinceUs >= 0 && sinceUs <= MOST_GAP_US) {
        this.#echoUs = timeUs;
        this.#row = this.strikeCount = 0;
        this.#note(timeUs, message.status, pad, velocity, message.stroke);
        return ECHO;
      }
      this.#echoGroup = -1;
    }
    const isFirm = velocity >= rules.firmFrom[pad]!;
    // Ghosts part no strikes of a hand, nor does what the kit shakes out ahead of a strike.
    if (!isFirm && (this.#isFoot === 0 || velocity < PARTS_FEET_FROM)) return NO_COMMAND;
    if (this.#row > 0 && group !== this.#group) {
      // A foot may go on while a hand strikes.
      const sinceUs = timeUs - this.strikeUs[this.#row - 1]!;
      if (isFoot === 1 && this.#isFoot === 0 && sinceUs <= MOST_GAP_US) return NO_COMMAND;
      this.#row = 0;
    }
    if (!isFirm) return NO_COMMAND;
    const command = rules.commandOfPad[pad]!;
    const needs = rules.strikes[pad]!;
    if (command < 0 || needs === 0 || (isFoot === 1 && !this.hearsFeet)) return NO_COMMAND;
    return this.#strike(message, command, needs);
  }

  #strike(message: KitMessage, command: number, needs: number): number {
    const { timeUs } = message;
    const row = this.#row;
    const gapUs = row > 0 ? timeUs - this.strikeUs[row - 1]! : Infinity;
    if (gapUs >= 0 && gapUs < SAME_STRIKE_US) return NO_COMMAND;
    const goesOn =
      command === this.#command &&
      gapUs >= LEAST_GAP_US &&
      gapUs <= MOST_GAP_US &&
      (row < 2 || isEven(gapUs, this.strikeUs[row - 1]! - this.strikeUs[row - 2]!));
    if (!goesOn) this.#row = 0;
    this.#group = this.#rules.group[message.pad]!;
    this.#isFoot = this.#rules.isFoot[message.pad]!;
    this.#command = command;
    this.#needs = needs;
    this.strikeCount = this.#row;
    this.#note(timeUs, message.status, message.pad, message.velocity, message.stroke);
    this.#row = this.strikeCount;
    if (this.#row < this.#needs) return NO_COMMAND;
    this.#row = 0;
    this.#echoGroup = this.#group;
    this.#echoUs = timeUs;
    return command;
  }

  #hearSwitch({ timeUs, status, data1, data2 }: KitMessage): number {
    const kind = status >> 4;
    const family =
      kind === NOTE_ON ? 0 : kind === CONTROL_CHANGE ? 1 : kind === PROGRAM_CHANGE ? 2 : -1;
    if (family < 0 || data1 > 127) return NO_COMMAND;
    const at = (family * 16 + (status & 15)) * 128 + data1;
    const command = this.#rules.commandOfSwitch[at]!;
    if (command < 0) return NO_COMMAND;
    const before = this.#switchValue[at]!;
    const sinceUs = timeUs - this.#switchUs[at]!;
    this.#switchValue[at] = data2;
    // A pedal that is moved sends values on its way, and none twice.
    const isPress =
      family === 2 ||
      (family === 0 ? data2 > 0 : data2 >= SWITCH_ON && (before < SWITCH_ON || before === data2));
    if (!isPress) return NO_COMMAND;
    this.#switchUs[at] = timeUs;
    this.#row = this.strikeCount = 0;
    this.#note(timeUs, status, data1, data2, -1);
    return sinceUs >= 0 && sinceUs < SWITCH_BOUNCE_US ? ECHO : command;
  }

  #note(timeUs: number, status: number, data1: number, data2: number, stroke: number): void {
    const at = this.strikeCount++;
    this.strikeUs[at] = timeUs;
    this.strikeStatus[at] = status;
    this.strikeData1[at] = data1;
    this.strikeData2[at] = data2;
    this.strikeStroke[at] = stroke;
  }
}

const isEven = (one: number, other: number): boolean =>
  Math.max(one, other) <= MOST_UNEVEN * Math.min(one, other);
