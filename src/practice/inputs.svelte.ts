import * as v from 'valibot';
import { EDGE_AND_RIM, GENERAL_MIDI, kitFor } from '../kit/built-in-kits';
import type { Kit } from '../kit/kit';
import { createKitReader, STROKE, UNMAPPED } from '../kit/kit-reader';
import { checkKit, parseKit, writeKit } from '../kit/parse-kit';
import { createFileSource, type FileSource } from '../midi/file-source';
import { createKeyboardSource } from '../midi/keyboard-source';
import { createPadSource } from '../midi/pad-source';
import { createSimulatedSource, type SimulatedSource } from '../midi/simulated-source';
import type { StrokeSink, StrokeSource } from '../midi/stroke-source';
import { createWebMidiSource, type PortChoice, type WebMidiState } from '../midi/web-midi-source';
import { VOICES, type Voice } from '../phrase/voice';
import type { AudioEngine } from '../sound/audio-engine';
import { createPadSound } from '../sound/pad-sound';
import type { OwnTextStore } from '../store/own-text-store';
import type { SettingsStore } from '../store/settings-store';
import { readMidiFile } from '../take/read-midi-file';
import type { Faults } from '../take/simulate';
import { takeOfMidiFile } from '../take/take-of-midi-file';
import type { Meter } from '../time/meter';
import { FIRST_PLAYERS, PlayersShape, type Player, type PlayerChoices } from './players';
import type { TakeRun } from './take-run';

/** The stroke heard last, for the kit screen. */
export interface HeardStroke {
  /** MIDI note number. */
  readonly note: number;
  /** Undefined when the kit has no pad for the note. */
  readonly voice: Voice | undefined;
  readonly velocity: number;
}

/** A MIDI file that will be played in place of a kit. */
export interface ChosenFile {
  readonly name: string;
  /** In beats of the phrase's meter; undefined when the file tells none. */
  readonly tempoBpm: number | undefined;
  readonly kitTitle: string;
}

export interface InputParts {
  readonly engine: Pick<AudioEngine, 'playNow' | 'prepare'>;
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  readonly kits: Pick<OwnTextStore, 'put' | 'list' | 'remove'>;
  /** Where strokes go: the session. */
  readonly receive: StrokeSink;
  readonly meter: () => Meter | undefined;
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
  #ownKits: readonly Kit[] = $state.raw([]);
  #midi: WebMidiState = $state.raw({ kind: 'ask', sentence: '', remedy: '' });
  #ports: readonly PortChoice[] = $state.raw([]);
  #heard: HeardStroke | undefined = $state.raw();
  #file: ChosenFile | undefined = $state.raw();
  #fileSource: FileSource | undefined;
  #simulated: SimulatedSource | undefined;
  #handedOver = 0;
  #reader = createKitReader(GENERAL_MIDI);
  #monitor: ReturnType<typeof setTimeout> | undefined;
  #listener: StrokeSink | undefined;

  constructor(parts: InputParts, port = createWebMidiSource(rememberedPort(parts.settings))) {
    this.#parts = parts;
    this.#port = port;
    this.#choices = parts.settings.read('players', PlayersShape, FIRST_PLAYERS);
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
    return this.kits.find(({ title }) => title === this.#choices.kitTitle) ?? GENERAL_MIDI;
  }
  get kits(): readonly Kit[] {
    return [EDGE_AND_RIM, GENERAL_MIDI, ...this.#ownKits];
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
  get faults(): Faults {
    return this.#choices.faults;
  }
  get seed(): number {
    return this.#choices.seed;
  }
  get file(): ChosenFile | undefined {
    return this.#file;
  }
  /** The stroke heard last, read a few times a second. */
  get heard(): HeardStroke | undefined {
    return this.#heard;
  }

  /** Reads own kits and, where the browser allowed it before, connects the port. */
  async load(): Promise<void> {
    const { texts } = await this.#parts.kits.list();
    this.#ownKits = texts.flatMap(({ text }) => {
      const parsed = parseKit(text);
      return parsed.ok ? [parsed.value] : [];
    });
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
    const checked = checkKit(kit);
    if (!checked.ok) return checked.errors[0]?.message;
    const problem = await this.#parts.kits.put({
      id: kit.title,
      title: kit.title,
      text: writeKit(kit),
    });
    this.#ownKits = [...this.#ownKits.filter(({ title }) => title !== kit.title), kit];
    this.chooseKit(kit);
    return problem?.message;
  }
  async removeKit(kit: Kit): Promise<void> {
    await this.#parts.kits.remove(kit.title);
    this.#ownKits = this.#ownKits.filter(({ title }) => title !== kit.title);
    this.#listen();
  }

  /** Takes a MIDI file to be played; the sentence says what is wrong with it, if anything. */
  async chooseFile(file: File): Promise<string | undefined> {
    const parsed = readMidiFile(new Uint8Array(await file.arrayBuffer()));
    if (!parsed.ok) return `${file.name}: ${parsed.errors[0]!.message}`;
    const meter = this.#parts.meter();
    const taken = meter && takeOfMidiFile(parsed.value, { meter, countInBars: 0 });
    const messages = parsed.value.messages;
    const notes = messages.filter(({ status }) => status >> 4 === 9).map(({ data1 }) => data1);
    const kit = mapsAll(this.kit, notes) ? this.kit : kitFor(notes);
    this.#fileSource?.stop();
    this.#fileSource = createFileSource(file.name, messages, kit);
    this.#file = {
      name: file.name,
      tempoBpm: taken?.ok ? taken.value.tempos[0]?.bpm : undefined,
      kitTitle: kit.title,
    };
    this.#choose({ player: 'file' });
    return undefined;
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
  follow(run: TakeRun | undefined): void {
    this.#handedOver = 0;
    if (!run) {
      this.#fileSource?.stop();
      this.#simulated?.stop();
      this.#listen();
    } else if (this.player === 'file') this.#fileSource?.playFrom(run.originMs);
  }

  /** Hands notes that are due soon to the simulated player. */
  handOver(run: TakeRun): void {
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
        return this.#fileSource ? [this.#fileSource] : [];
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
    this.#reader = createKitReader(this.playedKit);
    this.#padSound.enabled = this.player !== 'kit';
    for (const source of this.#sources()) source.start(this.#sink);
  }

  readonly #sink: StrokeSink = (timeMs, status, data1, data2) => {
    this.#parts.receive(timeMs, status, data1, data2);
    this.#listener?.(timeMs, status, data1, data2);
    const reader = this.#reader;
    const kind = reader.read(status, data1, data2);
    if (kind !== STROKE && kind !== UNMAPPED) return;
    if (kind === STROKE) this.#padSound.strike(VOICES[reader.voiceNumber]!, reader.velocity);
    if (this.#monitor !== undefined) return;
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

const mapsAll = (kit: Kit, notes: readonly number[]): boolean =>
  notes.every((note) => kit.pads.some((pad) => pad.note === note));

/** The MIDI port of last time. */
const PortShape = v.object({
  manufacturer: v.string(),
  name: v.string(),
  place: v.number(),
  of: v.number(),
});

const rememberedPort = (settings: InputParts['settings']) => ({
  remembered: settings.read('port', v.optional(PortShape), undefined),
  remember: (memory: v.InferOutput<typeof PortShape>) => settings.write('port', memory),
});
