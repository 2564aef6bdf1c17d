import { heardInFile } from '../../capture/heard-in-file';
import type { ClockMap } from '../../clock/audio-clock-map';
import { startPump } from '../../clock/pump';
import type { Phrase } from '../../phrase/phrase';
import type { AudioEngine } from '../../sound/audio-engine';
import type { SettingsStore } from '../../store/settings-store';
import { readMidiFile } from '../../take/read-midi-file';
import { parseMeter } from '../../time/meter';
import type { Result } from '../../time/result';
import type { Inputs } from '../inputs.svelte';
import type { Rigs } from '../rigs.svelte';
import {
  CaptureChoicesShape,
  FIRST_CAPTURE_CHOICES,
  type CaptureChoices,
  type Way,
} from './capture-choices';
import { CaptureRun } from './capture-run';
import type { Corrections } from './corrections';
import { KEPT, KeptPlays } from './kept-plays';
import { nothingPlayed } from './nothing-played';
import { readPlayed, type Played, type PlayedMessages } from './played';
import { roundsToPlay } from './rounds-to-play';
import { writeDown, type NotWritten, type WrittenDown } from './write-down';

export type CaptureStatus = 'idle' | 'starting' | 'counting in' | 'listening';

export interface CapturingParts {
  readonly engine: AudioEngine;
  readonly clockMap: ClockMap;
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  readonly inputs: Pick<
    Inputs,
    'overhear' | 'follow' | 'handOver' | 'player' | 'playedKit' | 'midi' | 'file'
  >;
  readonly rigs: Pick<Rigs, 'beginTake' | 'look'>;
  /** What the simulated player plays: the phrase chosen for practice, at its layer and tempo. */
  readonly practised: () => { phrase: Phrase; layer: number; tempoBpm: number } | undefined;
  /** Practising ends where capturing begins. */
  readonly stopOthers: () => Promise<void>;
  readonly nowMs?: () => number;
  readonly pump?: typeof startPump;
  /** ISO 8601. */
  readonly dateTime?: () => string;
}

const SETTING = 'capture';

/**
 * Catches a phrase that is played several times round, and has it written down. What was played is kept on this
 * machine, and can be written down again in another meter or at another tempo.
 */
export class Capturing {
  readonly #parts: CapturingParts;
  readonly #nowMs: () => number;
  readonly #kept: KeptPlays;
  #choices: CaptureChoices = $state.raw(FIRST_CAPTURE_CHOICES);
  #status: CaptureStatus = $state('idle');
  #strokes = $state(0);
  #seconds = $state(0);
  #bar = $state(0);
  #problem: string | undefined = $state();
  #plays: readonly Played[] = $state.raw([]);
  #played: Played | undefined = $state.raw();
  #corrections: Corrections = $state.raw({});
  /** Worked out when it is looked at, and again when a correction is made. */
  readonly #outcome = $derived(this.#played && writeDown(this.#played, this.#corrections));
  #run: CaptureRun | undefined;
  #handOver: (() => void) | undefined;
  #letGo: (() => void)[] = [];

  constructor(parts: CapturingParts) {
    this.#parts = parts;
    this.#nowMs = parts.nowMs ?? (() => performance.now());
    this.#kept = new KeptPlays(parts.settings);
    this.#plays = this.#kept.read();
    this.#choices = parts.settings.read(SETTING, CaptureChoicesShape, FIRST_CAPTURE_CHOICES);
  }

  get choices(): CaptureChoices {
    return this.#choices;
  }
  get status(): CaptureStatus {
    return this.#status;
  }
  /** Strokes so far, read about ten times a second, as the next two. */
  get strokes(): number {
    return this.#strokes;
  }
  /** Since the first stroke. */
  get seconds(): number {
    return this.#seconds;
  }
  /** Of the click, 1-based; below 1 in the count-in, 0 without a click. */
  get bar(): number {
    return this.#bar;
  }
  /** Why nothing or not all was caught, or why there is no sound. */
  get problem(): string | undefined {
    return this.#problem;
  }
  /** What was played, today or before, the newest first, a few of them. */
  get plays(): readonly Played[] {
    return this.#plays;
  }
  /** What is written down below. */
  get played(): Played | undefined {
    return this.#played;
  }
  get corrections(): Corrections {
    return this.#corrections;
  }
  get outcome(): Result<WrittenDown, NotWritten> | undefined {
    return this.#outcome;
  }

  choose(some: Partial<CaptureChoices>): void {
    this.#choices = { ...this.#choices, ...some };
    this.#parts.settings.write(SETTING, this.#choices);
  }
  chooseWay(way: Way): void {
    this.choose({ way });
    this.#problem = undefined;
  }

  /** Writes it down otherwise; undefined takes a correction back. */
  correct(some: { [K in keyof Corrections]: Corrections[K] | undefined }): void {
    const entries = Object.entries({ ...this.#corrections, ...some });
    this.#corrections = Object.fromEntries(entries.filter(([, value]) => value !== undefined));
  }

  /** Goes back to something played before. */
  open(played: Played): void {
    this.#played = played;
    this.#corrections = {};
    this.#problem = undefined;
  }

  /** Reads what is written down below again, by the kit as it is now. */
  readAgain(): void {
    const { playedKit } = this.#parts.inputs;
    if (this.#played) this.#keep({ ...this.#played, kit: playedKit }, this.#played);
  }

  /** Begins to listen; call it from a gesture, since browsers keep quiet without one. */
  async start(): Promise<void> {
    if (this.#status !== 'idle') return;
    this.#status = 'starting';
    this.#problem = undefined;
    this.#strokes = this.#seconds = this.#bar = 0;
    const { engine, clockMap, inputs, rigs, stopOthers, pump = startPump } = this.#parts;
    await stopOthers();
    const { name, sentence } = await engine.start();
    if (this.#statusNow() !== 'starting') return;
    const { way, tempoBpm, countInBars } = this.#choices;
    const click =
      way === 'to the click'
        ? { bpm: tempoBpm, meter: parseMeter(this.#choices.meter)!, countInBars }
        : undefined;
    if (name !== 'running') {
      this.#problem = click ? `There is no click: ${sentence}` : sentence;
      if (click) {
        this.#status = 'idle';
        return;
      }
    }
    this.#observe();
    const run = new CaptureRun({
      engine,
      clockMap,
      nowMs: this.#nowMs,
      kit: inputs.playedKit,
      deviceOffsetMs: rigs.beginTake(inputs.player),
      click,
    });
    this.#run = run;
    this.#letGo = [
      inputs.overhear((...message) => run.receive(...message)),
      () => run.stop(),
      ...this.#followed(run, click?.bpm),
      pump(() => this.#tick(run)),
    ];
    this.#status = click ? 'counting in' : 'listening';
  }

  /** Stops listening and writes down what was played, if anything was. */
  stop(): void {
    const run = this.#run;
    for (const letGo of this.#letGo) letGo();
    this.#letGo = [];
    this.#run = undefined;
    this.#status = 'idle';
    if (!run) return;
    const { inputs, dateTime = isoNow } = this.#parts;
    this.#strokes = run.strokes;
    if (run.strokes + run.unmapped === 0) {
      this.#problem = nothingPlayed(inputs);
      return;
    }
    const { meter } = this.#choices;
    const clickBpm = run.clickBpm;
    this.#keep({
      messages: run.messages(),
      kit: run.kit,
      clickBpm,
      meter,
      fileName: undefined,
      at: dateTime(),
    });
    if (inputs.player === 'kit' && inputs.midi.kind !== 'ready')
      this.#problem = `${inputs.midi.sentence} What was played before that is kept.`;
  }

  /** Takes a MIDI file as if it had just been played; what is wrong with it is the problem told. */
  async readFile(file: File): Promise<void> {
    const parsed = readMidiFile(new Uint8Array(await file.arrayBuffer()));
    const heard = parsed.ok ? heardInFile(parsed.value) : parsed;
    this.#problem = heard.ok
      ? undefined
      : `${file.name} could not be read. ${heard.errors[0]!.message}`;
    if (!heard.ok) return;
    const { messages, kit, clickBpm, meter } = heard.value;
    const { dateTime = isoNow } = this.#parts;
    this.#keep({ messages, kit, clickBpm, meter, fileName: file.name, at: dateTime() });
  }

  #keep(messages: PlayedMessages, inPlaceOf?: Played): void {
    const played = readPlayed(messages);
    const others = this.#plays.filter((one) => one !== inPlaceOf);
    this.#plays = [played, ...others].slice(0, KEPT);
    this.#kept.write(this.#plays);
    this.open(played);
  }

  /** A file or the simulated player plays along, several rounds of what is practised. */
  #followed(run: CaptureRun, clickBpm: number | undefined): (() => void)[] {
    const { inputs, practised } = this.#parts;
    const asked = practised();
    if (!asked) return [];
    const timeline = roundsToPlay(asked.phrase, asked.layer, clickBpm ?? asked.tempoBpm);
    const followed = { originMs: run.originMs, nowUs: () => run.nowUs(), take: { timeline } };
    inputs.follow(followed);
    this.#handOver = () => inputs.handOver(followed);
    return [() => inputs.follow(undefined), () => (this.#handOver = undefined)];
  }

  #tick(run: CaptureRun): void {
    this.#observe();
    this.#parts.rigs.look();
    this.#handOver?.();
    run.tick();
    this.#strokes = run.strokes;
    this.#seconds = Math.floor(run.seconds);
    this.#bar = run.bar;
    if (this.#status === 'counting in' && run.nowUs() >= 0) this.#status = 'listening';
    if (run.isOver) this.stop();
  }

  #observe(): void {
    const reading = this.#parts.engine.observe();
    if (reading) this.#parts.clockMap.observe(reading);
  }

  /** As it is after something was awaited. */
  #statusNow(): CaptureStatus {
    return this.#status;
  }
}

const isoNow = (): string => new Date(Date.now()).toISOString();
