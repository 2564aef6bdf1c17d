import type { Kit } from '../../kit/kit';
import { KitDecoder, type KitMessage } from '../../kit/kit-decoder';
import { STROKE } from '../../kit/kit-reader';
import { ownCopy, withPad } from '../../kit/edit-kit';
import { createKeyboardSource } from '../../midi/keyboard-source';
import { createPadSource } from '../../midi/pad-source';
import { createSimulatedSource } from '../../midi/simulated-source';
import type { PlayedTo, StrokeSink, StrokeSource } from '../../midi/stroke-source';
import type { WebMidiState } from '../../midi/web-midi-source';
import { VOICES, type Voice } from '../../phrase/model/voice';
import type { AudioEngine } from '../../sound/audio-engine';
import { createPadSound } from '../../sound/pad-sound';
import type { OwnTextStore } from '../../store/own-text-store';
import type { SettingsStore } from '../../store/settings-store';
import type { MidiFileError } from '../../take/midi-file';
import type { Faults } from '../../take/simulate';
import type { Meter } from '../../time/meter';
import type { Result } from '../../time/result';
import { KitMonitor } from './kit-monitor.svelte';
import { KitPort } from './kit-port.svelte';
import { MidiFilePlayer, type ChosenFile } from './midi-file-player.svelte';
import { OwnKits, type KitProblem } from './own-kits.svelte';
import { isByHand, type Player } from '../../take/player';
import { FIRST_PLAYERS, PlayersShape, type PlayerChoices } from './players';

export interface InputDependencies {
  readonly engine: Pick<AudioEngine, 'playNow' | 'prepare'>;
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  readonly kits: Pick<OwnTextStore, 'put' | 'list' | 'remove' | 'setAside'>;
}

/** Somebody who works with all that is played. */
export interface MessageTap {
  /** Called with each message. Live path: it must not allocate, store or wait, and keep nothing of the message itself. */
  readonly onMessage: (message: KitMessage) => void;
  /**
   * Told when the notes mean something else: later messages come from `decoder`. What came before may be read through it
   * at once, so that it goes on from there.
   */
  readonly onKit?: (decoder: KitDecoder) => void;
}

/**
 * Everything that can strike, one player at a time: the kit on its port, the computer keyboard with the
 * pads on the screen, a MIDI file, the simulated player. Each message is decoded here, once for all.
 */
export class Inputs {
  readonly port: Pick<KitPort, keyof KitPort>;
  readonly monitor: Pick<KitMonitor, keyof KitMonitor>;
  readonly #settings;
  readonly #keyboard = createKeyboardSource();
  readonly #pads = createPadSource();
  readonly #file = new MidiFilePlayer();
  readonly #kits;
  readonly #padSound;
  #choices: PlayerChoices = $state.raw(FIRST_PLAYERS);
  #sources: readonly StrokeSource[] = [];
  #decoder: KitDecoder;
  #taps: readonly MessageTap[] = [];
  #target: PlayedTo | undefined;
  #isKit = false;
  /** Somebody strikes, not a file and not the simulated player. */
  #isByHand = false;
  #isUnasked = $state(false);

  constructor({ engine, settings, kits }: InputDependencies, port = new KitPort(settings)) {
    this.port = port;
    this.#settings = settings;
    this.#choices = settings.read('players', PlayersShape, FIRST_PLAYERS);
    this.#isUnasked = this.#choices === FIRST_PLAYERS;
    this.#kits = new OwnKits(kits);
    this.#decoder = new KitDecoder(this.kit);
    this.monitor = new KitMonitor(this.kit);
    this.#padSound = createPadSound(engine);
    this.#connect();
  }

  get player(): Player {
    return this.#choices.player;
  }
  /** Nobody has ever said who plays. */
  get isUnasked(): boolean {
    return this.#isUnasked;
  }
  /** The player's own kit, as the kit screen has it. */
  get kit(): Kit {
    return this.#kits.called(this.#choices.kitTitle);
  }
  get kits(): readonly Kit[] {
    return this.#kits.all;
  }
  /** The kit whose notes arrive from whoever plays. */
  get playedKit(): Kit {
    void this.#choices;
    return this.#sources.find(({ kit }) => kit !== undefined)?.kit ?? this.kit;
  }
  /** Why no stroke would arrive: the kit is to play, and is not listened to. */
  get kitAway(): WebMidiState | undefined {
    const { state } = this.port;
    return this.player === 'kit' && state.kind !== 'ready' ? state : undefined;
  }
  get faults(): Faults {
    return this.#choices.faults;
  }
  get seed(): number {
    return this.#choices.seed;
  }
  get file(): ChosenFile | undefined {
    return this.#file.chosen;
  }

  /** Reads own kits. */
  async load(): Promise<void> {
    await this.#kits.load();
    this.#connect();
  }

  choosePlayer(player: Player): void {
    this.#isUnasked = false;
    this.#choose({ player });
  }
  chooseKit(kit: Kit): void {
    this.#choose({ kitTitle: kit.title });
  }
  setFaults(faults: Faults): void {
    this.#choose({ faults });
  }
  setSeed(seed: number): void {
    this.#choose({ seed });
  }

  /** Keeps an own kit and plays on it; on it too where it could not be stored. */
  async saveKit(kit: Kit): Promise<Result<Kit, KitProblem>> {
    const saved = await this.#kits.save(kit);
    if (saved.ok) this.chooseKit(saved.value);
    else if (saved.errors[0]!.code === 'ONLY_IN_MEMORY') this.chooseKit(kit);
    return saved;
  }
  async removeKit(kit: Kit): Promise<void> {
    await this.#kits.remove(kit);
    this.#connect();
  }
  /** Gives a note that the kit does not know a voice, in an own kit that is played on from now on. */
  mapNote(note: number, voice: Voice): Promise<Result<Kit, KitProblem>> {
    const copy = ownCopy(this.kit, this.kits, 'notes');
    return this.saveKit(withPad(copy, note, voice, copy.title));
  }

  /** Takes a MIDI file to be played, in the meter of the phrase that is practised. */
  async chooseFile(
    file: File,
    meter: Meter | undefined,
  ): Promise<Result<ChosenFile, MidiFileError>> {
    const chosen = await this.#file.choose(file, meter, this.kit);
    if (chosen.ok) this.#choose({ player: 'file' });
    return chosen;
  }

  /** A touch on a pad of the screen; milliseconds on the performance clock. */
  touchPad(voice: Voice, velocity: number, timeMs: number): void {
    this.#pads.touch(timeMs, voice, velocity);
  }

  /** Lets all messages through to somebody, until the returned function is called. */
  tap(tap: MessageTap): () => void {
    this.#taps = [...this.#taps, tap];
    return () => (this.#taps = this.#taps.filter((one) => one !== tap));
  }

  /**
   * A take begins: a file or the simulated player plays to it, and what came before is no part of it; until the
   * returned function is called.
   */
  follow(target: PlayedTo): () => void {
    this.#target = target;
    this.#decoder.reset();
    for (const source of this.#sources) source.playTo?.(target);
    return () => {
      this.#target = undefined;
      for (const source of this.#sources) {
        source.stop();
        source.start(this.#sink);
      }
    };
  }

  #choose(some: Partial<PlayerChoices>): void {
    this.#choices = { ...this.#choices, ...some };
    this.#settings.write('players', this.#choices);
    this.#connect();
  }

  /** Lets the chosen player through and nobody else. */
  #connect(): void {
    for (const source of this.#sources) source.stop();
    this.#sources = this.#sourcesOf(this.player);
    this.#isKit = this.player === 'kit';
    this.#isByHand = isByHand(this.player);
    this.#padSound.enabled = !this.#isKit;
    this.#useKit(this.playedKit);
    for (const source of this.#sources) {
      source.start(this.#sink);
      if (this.#target) source.playTo?.(this.#target);
    }
  }

  #sourcesOf(player: Player): readonly StrokeSource[] {
    switch (player) {
      case 'kit':
        return [this.port.source];
      case 'keyboard and pads':
        return [this.#keyboard, this.#pads];
      case 'file':
        return this.#file.source ? [this.#file.source] : [];
      case 'simulated player':
        return [createSimulatedSource(this.faults, this.seed)];
    }
  }

  #useKit(kit: Kit): void {
    if (kit === this.#decoder.kit) return;
    this.#decoder = new KitDecoder(kit);
    this.monitor.useKit(kit);
    for (const tap of this.#taps) tap.onKit?.(this.#decoder);
  }

  readonly #sink: StrokeSink = (timeMs, status, data1, data2) => {
    const handledMs = performance.now();
    const message = this.#decoder.read(Math.round(timeMs * 1000), status, data1, data2);
    const taps = this.#taps;
    for (let i = 0; i < taps.length; i++) taps[i]!.onMessage(message);
    if (this.#isKit) this.monitor.receive(message, handledMs);
    if (this.#isByHand) this.monitor.show(message);
    if (message.kind === STROKE)
      this.#padSound.strike(VOICES[message.voiceNumber]!, message.velocity);
  };
}
