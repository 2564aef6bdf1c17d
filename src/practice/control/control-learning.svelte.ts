import type { Command } from '../../control/command';
import { SWITCH_ON, type Control } from '../../control/control';
import { isOfKit } from '../../control/control-rules';
import type { Kit } from '../../kit/kit';
import type { KitMessage } from '../../kit/kit-decoder';
import { STROKE, UNMAPPED } from '../../kit/kit-reader';
import { GENUINE } from '../../kit/pad-fault';

/** A pad may send controllers ahead of its strike: so long is waited for a strike, ms. Chosen, not measured. */
const STRIKE_WITHIN_MS = 150;

/** A control that is learned by striking or pressing it. */
export class ControlLearning {
  /** The command it is for; undefined while nothing is learned. */
  command: Command | undefined = $state();
  readonly #kit: () => Kit;
  #learned: ((control: Control) => void) | undefined;
  #first: Control | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(kit: () => Kit) {
    this.#kit = kit;
  }

  /** Plain, for the live path. */
  get isOn(): boolean {
    return this.#learned !== undefined;
  }

  begin(command: Command, learned: (control: Control) => void): void {
    this.end();
    this.command = command;
    this.#learned = learned;
  }

  end(): void {
    clearTimeout(this.#timer);
    this.#timer = this.#first = this.#learned = undefined;
    this.command = undefined;
  }

  press(key: string): void {
    this.#end({ kind: 'key', key });
  }

  /** A message while learning: the first strike or press counts, a strike before a press. */
  hear(message: KitMessage): void {
    const control = controlOf(message, this.#kit());
    if (!control || (this.#first && control.kind === 'switch')) return;
    this.#first = control;
    clearTimeout(this.#timer);
    // The message is read by others first.
    this.#timer = setTimeout(
      () => this.#end(control),
      control.kind === 'pad' ? 0 : STRIKE_WITHIN_MS,
    );
  }

  #end(control: Control): void {
    const learned = this.#learned;
    this.end();
    learned?.(control);
  }
}

/** What a message would be learned as: a strike that is the player's, or a press. */
function controlOf(message: KitMessage, kit: Kit): Control | undefined {
  const { kind, status, data1: number, data2 } = message;
  if (kind === STROKE)
    return message.setAside === GENUINE ? { kind: 'pad', note: message.pad } : undefined;
  const channel = (status & 15) + 1;
  if (kind === UNMAPPED) return { kind: 'switch', sends: 'note', channel, number };
  if (status >> 4 === 0xc) return { kind: 'switch', sends: 'program', channel, number };
  if (status >> 4 !== 0xb || data2 < SWITCH_ON) return undefined;
  if (isOfKit({ sends: 'controller', number }, kit)) return undefined;
  return { kind: 'switch', sends: 'controller', channel, number };
}
