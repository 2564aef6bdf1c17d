import * as v from 'valibot';
import { secondKitWords } from '../../midi/midi-problems';
import { plainName } from '../../midi/port-memory';
import {
  createWebMidiSource,
  type PortChoice,
  type WebMidiState,
} from '../../midi/web-midi-source';
import type { SettingsStore } from '../../store/settings-store';

const PortShape = v.object({
  manufacturer: v.string(),
  name: v.string(),
  place: v.number(),
  of: v.number(),
});

/** The MIDI port that the kit is on, remembered from one day to the next. */
export class KitPort {
  readonly source;
  #state: WebMidiState = $state.raw({ kind: 'ask', sentence: '', remedy: '' });
  #secondKit: string | undefined = $state.raw();
  #ports: readonly PortChoice[] = $state.raw([]);

  constructor(settings: Pick<SettingsStore, 'read' | 'write'>, connect = createWebMidiSource) {
    this.source = connect({
      remembered: settings.read('port', v.optional(PortShape), undefined),
      remember: (memory) => settings.write('port', memory),
    });
    this.source.subscribe(() => this.#look());
    this.#look();
  }

  get state(): WebMidiState {
    return this.#state;
  }
  /** All there are to choose from. */
  get ports(): readonly PortChoice[] {
    return this.#ports;
  }
  /** Id of the port that is listened to. */
  get chosen(): string | undefined {
    void this.#state;
    return this.source.chosen;
  }
  /** What the port in use is called, without what systems add; empty while there is none. */
  get name(): string {
    return plainName(this.#ports.find(({ id }) => id === this.chosen)?.name ?? null);
  }
  /** What is done with the strokes of another port, if any come. */
  get secondKit(): string | undefined {
    return this.#secondKit && secondKitWords(plainName(this.#secondKit), this.name);
  }
  /** Messages whose own time could not be believed. */
  get unstamped(): number {
    return this.source.unstamped;
  }

  /** Asks the browser for MIDI; call it from a click. */
  async connect(): Promise<void> {
    await this.source.enable();
  }
  async choose(id: string): Promise<void> {
    await this.source.choose(id);
  }

  #look(): void {
    this.#state = this.source.state;
    this.#ports = this.source.ports;
    this.#secondKit = this.source.secondKit;
  }
}
