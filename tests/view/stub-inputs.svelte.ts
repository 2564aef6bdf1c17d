import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { KitFault } from '../../src/kit/faults/kit-fault';
import type { Kit } from '../../src/kit/kit';
import { MIDI_STATES, type MidiStateKind } from '../../src/midi/midi-problems';
import type { StrokeSink } from '../../src/midi/stroke-source';
import type { Voice } from '../../src/phrase/model/voice';
import { MessageTrace } from '../../src/practice/message-trace';
import type { HeardStroke } from '../../src/practice/inputs.svelte';
import type { ChosenFile } from '../../src/practice/midi-file-player.svelte';
import { FIRST_PLAYERS, type Player } from '../../src/practice/players';
import type { Faults } from '../../src/take/simulate';
import type { InputParts } from '../../src/view/app-context';

/** Inputs whose state a test sets; what was struck and learned is written down. */
export class StubInputs implements InputParts {
  player = $state<Player>('kit');
  kit = $state.raw<Kit>(EDGE_AND_RIM);
  kits = $state.raw<readonly Kit[]>([EDGE_AND_RIM, GENERAL_MIDI]);
  kind = $state<MidiStateKind>('ready');
  ports = $state.raw<readonly { id: string; name: string }[]>([]);
  chosenPort = $state<string>();
  faults = $state.raw<Faults>(FIRST_PLAYERS.faults);
  seed = $state(1);
  file = $state.raw<ChosenFile>();
  heard = $state.raw<HeardStroke>();
  listener: StrokeSink | undefined;
  readonly struck: { voice: Voice; velocity: number }[] = [];
  saved: Kit | undefined;
  readonly trace = new MessageTrace(EDGE_AND_RIM);
  unstamped = 0;
  kitFaults = $state.raw<readonly KitFault[]>([]);
  readonly mapped: { note: number; voice: Voice }[] = [];

  get playedKit() {
    return this.kit;
  }
  get midi() {
    const { sentence, remedy } = MIDI_STATES[this.kind];
    return { kind: this.kind, sentence: sentence.replace('{port}', 'Boathouse kit'), remedy };
  }

  async load() {}
  choosePlayer(player: Player) {
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
  async connect() {
    this.kind = 'ready';
  }
  async choosePort(id: string) {
    this.chosenPort = id;
  }
  async saveKit(kit: Kit) {
    this.saved = kit;
    return undefined;
  }
  countAnew() {
    this.trace.clear();
  }
  async mapNote(note: number, voice: Voice) {
    this.mapped.push({ note, voice });
    return undefined;
  }
  async removeKit() {}
  async chooseFile() {
    return undefined;
  }
  touchPad(voice: Voice, velocity: number) {
    this.struck.push({ voice, velocity });
  }
  overhear(listener: StrokeSink) {
    this.listener = listener;
    return () => (this.listener = undefined);
  }
  follow() {}
  handOver() {}
}
