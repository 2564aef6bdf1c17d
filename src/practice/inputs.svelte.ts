import { createFaultWatch } from '../kit/faults/fault-watch';
import type { KitFault } from '../kit/faults/kit-fault';
import type { Kit } from '../kit/kit';
import { createKitReader, STROKE, UNMAPPED } from '../kit/kit-reader';
import { ownCopy, withPad } from '../kit/edit-kit';
import { createKeyboardSource } from '../midi/keyboard-source';
import { createPadSource } from '../midi/pad-source';
import { createSimulatedSource, type SimulatedSource } from '../midi/simulated-source';
import type { StrokeSink, StrokeSource } from '../midi/stroke-source';
import { createWebMidiSource, type PortChoice, type WebMidiState } from '../midi/web-midi-source';
import { layerShape } from '../phrase/layers/layer-shape';
import { VOICES, type Voice } from '../phrase/model/voice';
import type { AudioEngine } from '../sound/audio-engine';
import { createPadSound } from '../sound/pad-sound';
import type { OwnTextStore } from '../store/own-text-store';
import type { SettingsStore } from '../store/settings-store';
import type { Faults } from '../take/simulate';
import type { Meter } from '../time/meter';
import { MessageTrace } from './message-trace';
import { MidiFilePlayer, type ChosenFile } from './midi-file-player.svelte';
import { OwnKits } from './own-kits.svelte';
import { FIRST_PLAYERS, PlayersShape, type Player, type PlayerChoices } from './players';
import type { LiveTimeline } from '../live/live-timeline';
import { rememberedPort } from './remembered-port';

/** The stroke heard last, for the kit screen. */
export interface HeardStroke {
  /** MIDI note number. */
  readonly note: number;
  /** Undefined when the kit has no pad for the note. */
  readonly voice: Voice | undefined;
  readonly velocity: number;
}

export interface InputParts {
  readonly engine: Pick<AudioEngine, 'playNow' | 'prepare'>;
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  readonly kits: Pick<OwnTextStore, 'put' | 'list' | 'remove'>;
  /** Where strokes go: the session. */
  readonly receive: StrokeSink;
  readonly meter: () => Meter | undefined;
  /** The kit that is played on has one more pad: a take that runs can use it. */
  readonly onMapped?: (kit: Kit) => void;
}

/** What a file or the simulated player plays along to: a take, or a capture. */
export interface PlayedTo {
  /** Performance time, ms, of bar 1 beat 1. */
  readonly originMs: number;
  nowUs(): number;
  readonly take: { readonly timeline: Pick<LiveTimeline, 'notes' | 'plan'> };
}

/** Hears at most this often what was struck, ms. Chosen, not measured. */
const MONITOR_MS = 120;
/** A simulated stroke is handed over this long before it is due, µs: less than the notice changes give. */
const HAND_OVER_US = 1_000_000;

/**
 * Everything that can strike, one player at a time: the kit on its port, the computer keyboard with the
 * pads on the screen, a MIDI file, the simulated player.
 */
export class Inputs {
  readonly #parts: InputParts;
  readonly #keyboard = createKeyboardSource();
  readonly #pads = createPadSource();
  readonly #padSound;
  readonly #port;
  #choices: PlayerChoices = $state.raw(FIRST_PLAYERS);
  readonly #kits;
  readonly #file = new MidiFilePlayer();
  /** The last raw messages of whoever plays. */
  readonly trace;
  #midi: WebMidiState = $state.raw({ kind: 'ask', sentence: '', remedy: '' });
  #ports: readonly PortChoice[] = $state.raw([]);
  #heard: HeardStroke | undefined = $state.raw();
  #simulated: SimulatedSource | undefined;
  #handedOver = 0;
  #fromKit = false;
  /** Somebody strikes, not a file and not the simulated player. */
  #byHand = false;
  #reader;
  #faultWatch;
  #monitor: ReturnType<typeof setTimeout> | undefined;
  #listener: StrokeSink | undefined;

  constructor(parts: InputParts, port = createWebMidiSource(rememberedPort(parts.settings))) {
    this.#parts = parts;
    this.#port = port;
    this.#choices = parts.settings.read('players', PlayersShape, FIRST_PLAYERS);
    this.#kits = new OwnKits(parts.kits);
    this.#reader = createKitReader(this.kit);
    this.trace = new MessageTrace(this.kit);
    this.#faultWatch = createFaultWatch(this.kit);
    this.#padSound = createPadSound(parts.engine);
    port.subscribe(() => this.#readPort());
    this.#readPort();
    this.#listen();
  }

  get player(): Player {
    return this.#choices.player;
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
    return this.#sources().find(({ kit }) => kit !== undefined)?.kit ?? this.kit;
  }
  get midi(): WebMidiState {
    return this.#midi;
  }
  get ports(): readonly PortChoice[] {
    return this.#ports;
  }
  get chosenPort(): string | undefined {
    void this.#midi;
    return this.#port.chosen;
  }
  /** What the kit does that is not the player's doing, so far. */
  get kitFaults(): readonly KitFault[] {
    return this.#faultWatch.report();
  }
  /** Messages of the kit whose own time could not be believed. */
  get unstamped(): number {
    return this.#port.unstamped;
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
  /** The stroke heard last, read a few times a second. */
  get heard(): HeardStroke | undefined {
    return this.#heard;
  }

  /** Reads own kits and, where the browser allowed it before, connects the port. */
  async load(): Promise<void> {
    await this.#kits.load();
    this.#listen();
    await this.#port.enableIfAllowed();
  }

  choosePlayer(player: Player): void {
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
  /** Asks the browser for MIDI; call it from a click. */
  async connect(): Promise<void> {
    await this.#port.enable();
  }
  async choosePort(id: string): Promise<void> {
    await this.#port.choose(id);
  }

  /** Keeps an own kit and plays on it; the sentence says why it could not be stored, if so. */
  async saveKit(kit: Kit): Promise<string | undefined> {
    const { taken, problem } = await this.#kits.save(kit);
    if (taken) this.chooseKit(kit);
    return problem;
  }
  async removeKit(kit: Kit): Promise<void> {
    await this.#kits.remove(kit);
    this.#listen();
  }
  /**
   * Gives a note that the kit does not know a voice, in an own kit, and in the take that runs; the
   * sentence says why it could not be stored, if so.
   */
  async mapNote(note: number, voice: Voice): Promise<string | undefined> {
    const copy = ownCopy(this.kit, this.kits, 'notes');
    const own = withPad(copy, note, voice, copy.title);
    const { taken, problem } = await this.#kits.save(own);
    if (!taken) return problem;
    this.chooseKit(own);
    this.#parts.onMapped?.(own);
    return problem;
  }

  /** Takes a MIDI file to be played; the sentence says what is wrong with it, if anything. */
  async chooseFile(file: File): Promise<string | undefined> {
    const problem = await this.#file.choose(file, this.#parts.meter(), this.kit);
    if (problem === undefined) this.#choose({ player: 'file' });
    return problem;
  }

  /** Forgets the messages and the kit's faults so far. */
  countAnew(): void {
    this.trace.clear();
    this.#faultWatch = createFaultWatch(this.playedKit);
  }

  /** A touch on a pad of the screen; milliseconds on the performance clock. */
  touchPad(voice: Voice, velocity: number, timeMs: number): void {
    this.#pads.touch(timeMs, voice, velocity);
  }

  /** Raw messages go to `listener` too, for learning a kit; until the returned function is called. */
  overhear(listener: StrokeSink): () => void {
    this.#listener = listener;
    return () => (this.#listener = undefined);
  }

  /** A take begins, or ends: a file or a simulated player follows. */
  follow(run: PlayedTo | undefined): void {
    this.#handedOver = 0;
    if (!run) {
      this.#file.source?.stop();
      this.#simulated?.stop();
      this.#listen();
    } else if (this.player === 'file') this.#file.source?.playFrom(run.originMs);
    else if (this.player === 'simulated player') {
      this.#simulated?.stop();
      this.#simulated = createSimulatedSource(slipping(this.faults, run), this.seed);
      this.#simulated.start(this.#sink);
    }
  }

  /** Hands notes that are due soon to the simulated player. */
  handOver(run: PlayedTo): void {
    const simulated = this.#simulated;
    if (this.player !== 'simulated player' || !simulated) return;
    const { notes } = run.take.timeline;
    const untilUs = run.nowUs() + HAND_OVER_US;
    for (; this.#handedOver < notes.length; this.#handedOver++) {
      const { note, timeUs } = notes[this.#handedOver]!;
      if (timeUs > untilUs) return;
      simulated.append(note, timeUs, run.originMs + timeUs / 1000);
    }
  }

  #sources(): readonly StrokeSource[] {
    switch (this.player) {
      case 'kit':
        return [this.#port];
      case 'keyboard and pads':
        return [this.#keyboard, this.#pads];
      case 'file':
        return this.#file.source ? [this.#file.source] : [];
      case 'simulated player':
        return this.#simulated ? [this.#simulated] : [];
    }
  }

  #choose(some: Partial<PlayerChoices>): void {
    this.#choices = { ...this.#choices, ...some };
    this.#parts.settings.write('players', this.#choices);
    this.#listen();
  }

  /** Lets the chosen player through and nobody else. */
  #listen(): void {
    for (const source of [this.#port, this.#keyboard, this.#pads]) source.stop();
    this.#simulated?.stop();
    this.#simulated =
      this.player === 'simulated player'
        ? createSimulatedSource(this.faults, this.seed)
        : undefined;
    const kit = this.playedKit;
    this.#reader = createKitReader(kit);
    this.trace.useKit(kit);
    this.#faultWatch = createFaultWatch(kit);
    this.#fromKit = this.player === 'kit';
    this.#byHand = this.#fromKit || this.player === 'keyboard and pads';
    this.#padSound.enabled = !this.#fromKit;
    for (const source of this.#sources()) source.start(this.#sink);
  }

  readonly #sink: StrokeSink = (timeMs, status, data1, data2) => {
    const handledMs = performance.now();
    this.#parts.receive(timeMs, status, data1, data2);
    this.#listener?.(timeMs, status, data1, data2);
    const reader = this.#reader;
    const kind = reader.read(status, data1, data2);
    if (this.#fromKit) {
      this.#faultWatch.message(Math.round(timeMs * 1000), status, data1, data2);
      this.trace.add(timeMs, handledMs, status, data1, data2, kind, reader);
    }
    if (kind !== STROKE && kind !== UNMAPPED) return;
    if (kind === STROKE) this.#padSound.strike(VOICES[reader.voiceNumber]!, reader.velocity);
    if (this.#monitor !== undefined || !this.#byHand) return;
    const voice = kind === STROKE ? reader.voiceNumber : -1;
    this.#monitor = setTimeout(this.#show, MONITOR_MS, data1, voice, data2);
  };

  readonly #show = (note: number, voice: number, velocity: number): void => {
    this.#monitor = undefined;
    this.#heard = { note, voice: VOICES[voice], velocity };
  };

  #readPort(): void {
    this.#midi = this.#port.state;
    this.#ports = this.#port.ports;
  }
}

/** A place that is lost is lost by one partial at the tempo and layer the take begins with. */
function slipping(faults: Faults, run: PlayedTo): Faults {
  if (!faults.lostPlace) return faults;
  const { plan } = run.take.timeline;
  const { partialBeats } = layerShape(plan.phrase, plan.passages[0]!.layer);
  const slipMs = (partialBeats.valueOf() * 60_000) / plan.tempo.changes[0]!.bpm;
  return { ...faults, lostPlace: { ...faults.lostPlace, slipMs } };
}
