import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { KitFault } from '../../src/kit/faults/kit-fault';
import type { Kit } from '../../src/kit/kit';
import { KitDecoder } from '../../src/kit/kit-decoder';
import { MIDI_STATES, type MidiStateKind } from '../../src/midi/midi-problems';
import type { PlayedTo, StrokeSink } from '../../src/midi/stroke-source';
import type { Voice } from '../../src/phrase/model/voice';
import type { MessageTap } from '../../src/practice/inputs/inputs.svelte';
import type {
  KitMonitor,
  MonitoredStroke,
  UnknownNote,
} from '../../src/practice/inputs/kit-monitor.svelte';
import type { KitPort } from '../../src/practice/inputs/kit-port.svelte';
import { MessageTrace } from '../../src/practice/inputs/message-trace';
import type { ChosenFile } from '../../src/practice/inputs/midi-file-player.svelte';
import { FIRST_PLAYERS } from '../../src/practice/inputs/players';
import type { Player } from '../../src/take/player';
import type { Faults } from '../../src/take/simulate';
import { good } from '../../src/time/result';
import type { InputParts } from '../../src/view/app-context';

class StubPort implements Omit<KitPort, 'source'> {
  kind = $state<MidiStateKind>('ready');
  ports = $state.raw<readonly { id: string; name: string }[]>([]);
  chosen = $state<string>();
  name = '';
  unstamped = 0;
  secondKit = $state<string>();
  /** No screen knows of it. */
  readonly source = undefined as never;

  get state() {
    const { sentence, remedy } = MIDI_STATES[this.kind];
    return { kind: this.kind, sentence: sentence.replace('{port}', 'Boathouse kit'), remedy };
  }
  async connect() {
    this.kind = 'ready';
  }
  async choose(id: string) {
    this.chosen = id;
  }
}

class StubMonitor implements Pick<KitMonitor, keyof KitMonitor> {
  readonly trace = new MessageTrace();
  faults = $state.raw<readonly KitFault[]>([]);
  heard = $state.raw<MonitoredStroke>();
  unknown = $state.raw<readonly UnknownNote[]>([]);

  countAnew() {
    this.trace.clear();
  }
  useKit() {}
  leaveOut(left: number) {
    this.unknown = this.unknown.filter(({ note }) => note !== left);
  }
  receive() {}
  show() {}
}

/** Inputs whose state a test sets; what was struck and learned is written down. */
export class StubInputs implements InputParts {
  readonly port = new StubPort();
  readonly monitor = new StubMonitor();
  player = $state<Player>('kit');
  isUnasked = $state(false);
  kit = $state.raw<Kit>(EDGE_AND_RIM);
  kits = $state.raw<readonly Kit[]>([EDGE_AND_RIM, GENERAL_MIDI]);
  faults = $state.raw<Faults>(FIRST_PLAYERS.faults);
  seed = $state(1);
  file = $state.raw<ChosenFile>();
  /** Sends a raw message to whoever listens, decoded; undefined while nobody does. */
  listener: StrokeSink | undefined;
  /** What is played to now. */
  followed: PlayedTo | undefined;
  readonly struck: { voice: Voice; velocity: number }[] = [];
  saved: Kit | undefined;
  readonly mapped: { note: number; voice: Voice }[] = [];

  get playedKit() {
    return this.kit;
  }
  get kitAway() {
    const { state } = this.port;
    return this.player === 'kit' && state.kind !== 'ready' ? state : undefined;
  }

  async load() {}
  choosePlayer(player: Player) {
    this.isUnasked = false;
    this.player = player;
  }
  chooseKit(kit: Kit) {
    this.kit = kit;
  }
  setFaults(faults: Faults) {
    this.faults = faults;
  }
  setSeed(seed: number) {
    this.seed = seed;
  }
  async saveKit(kit: Kit) {
    this.saved = kit;
    return good(kit);
  }
  async mapNote(note: number, voice: Voice) {
    this.mapped.push({ note, voice });
    return good(this.kit);
  }
  async removeKit() {}
  async chooseFile(file: File) {
    return good({ name: file.name, tempoBpm: undefined, kitTitle: this.kit.title });
  }
  touchPad(voice: Voice, velocity: number) {
    this.struck.push({ voice, velocity });
  }
  tap({ onMessage }: MessageTap) {
    const decoder = new KitDecoder(this.kit);
    this.listener = (timeMs, status, data1, data2) =>
      onMessage(decoder.read(Math.round(timeMs * 1000), status, data1, data2));
    return () => (this.listener = undefined);
  }
  follow(target: PlayedTo) {
    this.followed = target;
    return () => (this.followed = undefined);
  }
}
