import type { Take } from '../take/take';

/** What a take keeps of the commands that were given to the app while it was played. */
export class TakeCommands {
  readonly #messages: Set<number>;
  readonly #spotsUs: number[];

  constructor({ commands = [], spotsUs = [] }: Pick<Take, 'commands' | 'spotsUs'> = {}) {
    this.#messages = new Set(commands);
    this.#spotsUs = [...spotsUs];
  }

  /** Grows with everything that is added. */
  get count(): number {
    return this.#messages.size + this.#spotsUs.length;
  }

  /** The parts of a take that hold it; none where no command was given. */
  get parts(): Pick<Take, 'commands' | 'spotsUs'> {
    return {
      ...(this.#messages.size > 0 && { commands: [...this.#messages] }),
      ...(this.#spotsUs.length > 0 && { spotsUs: [...this.#spotsUs] }),
    };
  }

  /** Spots that were marked, integer microseconds from bar 1 beat 1, in the order of marking. */
  get spotsUs(): readonly number[] {
    return this.#spotsUs;
  }

  /** Whether the message at that place of the take, from 0, gave a command. Live path. */
  has(message: number): boolean {
    return this.#messages.has(message);
  }

  /** The message at that place gave a command; -1 is none. */
  add(message: number): void {
    if (message >= 0) this.#messages.add(message);
  }

  markSpot(atUs: number): void {
    this.#spotsUs.push(atUs);
  }
}
