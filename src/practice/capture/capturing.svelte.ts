import { takeInFile } from '../../capture/take-in-file';
import { startPump } from '../../clock/pump';
import { keepScreenOn } from '../../clock/wake-lock';

import { readMidiFile } from '../../take/read-midi-file';
import { parseMeter } from '../../time/meter';
import type { Result } from '../../time/result';
import type { Player } from '../players';
import {
  CaptureChoicesShape,
  FIRST_CAPTURE_CHOICES,
  type CaptureChoices,
  type Way,
} from './capture-choices';
import { CaptureRun } from './capture-run';
import type { CapturingParts } from './capturing-parts';
import type { Corrections } from '../../capture/corrections';
import { CaptureHistory } from './capture-history.svelte';
import { nothingPlayed } from './nothing-played';
import { CaptureJournal } from './capture-journal';
import { decodeTake, type CaptureTake, type DecodedTake } from '../../capture/capture-take';
import { roundsToPlay } from './rounds-to-play';
import { capture, type CaptureRefusal, type CaptureReport } from '../../capture/capture';

export type CaptureStatus = 'idle' | 'starting' | 'counting in' | 'listening';

const SETTING = 'capture';

/**
 * Catches a phrase that is played several times round, and has it written down. What was played is kept on this
 * machine, and can be written down again in another meter or at another tempo.
 */
export class Capturing {
  readonly #parts: CapturingParts;
  readonly #nowMs: () => number;
  readonly #kept: CaptureHistory;
  #choices: CaptureChoices = $state.raw(FIRST_CAPTURE_CHOICES);
  #status: CaptureStatus = $state('idle');
  #strokes = $state(0);
  #seconds = $state(0);
  #bar = $state(0);
  #beat = $state(0);
  #problem: string | undefined = $state();
  /** How the last capture ended that has a problem to tell, as long as it lasts, and who played. */
  #ended: { readonly how: 'silent' | 'unplugged'; readonly player: Player } | undefined =
    $state.raw();
  #played: DecodedTake | undefined = $state.raw();
  #corrections: Corrections = $state.raw({});
  /** Worked out when it is looked at, and again when a correction is made. */
  readonly #outcome = $derived(this.#played && capture(this.#played, this.#corrections));
  #run: CaptureRun | undefined;
  /** What was played so far, for as long as it listens. */
  #soFar: (() => CaptureTake) | undefined;
  #handOver: (() => void) | undefined;
  #letGo: (() => void)[] = [];

  constructor(parts: CapturingParts) {
    this.#parts = parts;
    this.#nowMs = parts.nowMs ?? (() => performance.now());
    this.#kept = new CaptureHistory(parts.plays);
    this.#choices = parts.settings.read(SETTING, CaptureChoicesShape, FIRST_CAPTURE_CHOICES);
  }

  get choices(): CaptureChoices {
    return this.#choices;
  }
  get status(): CaptureStatus {
    return this.#status;
  }
  /** Strokes so far, read about ten times a second, as the next three. */
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
  /** Of the bar, 1-based; 0 before the first click, and without a click. */
  get beat(): number {
    return this.#beat;
  }
  /** Why nothing or not all was caught, or why there is no sound, for as long as it is so. */
  get problem(): string | undefined {
    return this.#problem ?? this.#endedWords();
  }
  /** Why what was played goes with the page, if it does. */
  get notKept(): string | undefined {
    return this.#kept.problem;
  }
  /** What was played, today or before, the newest first, a few of them. */
  get plays(): readonly DecodedTake[] {
    return this.#kept.plays;
  }
  /** What is written down below. */
  get played(): DecodedTake | undefined {
    return this.#played;
  }
  get corrections(): Corrections {
    return this.#corrections;
  }
  get outcome(): Result<CaptureReport, CaptureRefusal> | undefined {
    return this.#outcome;
  }

  /** Reads what was played before the page was opened, once. */
  load(): Promise<void> {
    return this.#kept.load();
  }

  choose(some: Partial<CaptureChoices>): void {
    this.#choices = { ...this.#choices, ...some };
    this.#parts.settings.write(SETTING, this.#choices);
  }
  chooseWay(way: Way): void {
    this.choose({ way });
    this.#noProblem();
  }

  /** Writes it down otherwise; undefined takes a correction back. */
  correct(some: { [K in keyof Corrections]: Corrections[K] | undefined }): void {
    const entries = Object.entries({ ...this.#corrections, ...some });
    this.#corrections = Object.fromEntries(entries.filter(([, value]) => value !== undefined));
    if (this.#played) void this.#kept.keep(this.#played, this.#corrections);
  }

  /** Goes back to something played before, and to what was said of it. */
  open(played: DecodedTake): void {
    this.#played = played;
    this.#corrections = this.#kept.saidOf(played);
    this.#noProblem();
  }

  /** Reads what is written down below again, by the kit as it is now. */
  readAgain(): void {
    const { playedKit } = this.#parts.inputs;
    if (this.#played) this.#keep({ ...this.#played, kit: playedKit });
  }

  /** Begins to listen; call it from a gesture, since browsers keep quiet without one. */
  async start(): Promise<void> {
    if (this.#status !== 'idle') return;
    this.#status = 'starting';
    this.#noProblem();
    this.#strokes = this.#seconds = this.#bar = this.#beat = 0;
    const { engine, clockMap, inputs, rigs, stopOthers, pump = startPump } = this.#parts;
    const { screenOn = keepScreenOn } = this.#parts;
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
    const playing = this.#beginPlay(run);
    this.#soFar = playing;
    const journal = new CaptureJournal(this.#kept);
    const screen = screenOn();
    this.#letGo = [
      () => screen.release(),
      inputs.overhear((...message) => run.receive(...message)),
      () => run.stop(),
      ...this.#followed(run, click?.bpm),
      pump(() => {
        this.#tick(run);
        if (this.#run === run) journal.tick(run, playing, this.#nowMs());
      }),
    ];
    this.#status = click ? 'counting in' : 'listening';
  }

  /** Stops listening and writes down what was played, if anything was. */
  stop(): void {
    const run = this.#run;
    const soFar = this.#soFar;
    for (const letGo of this.#letGo) letGo();
    this.#letGo = [];
    this.#run = this.#soFar = undefined;
    this.#status = 'idle';
    if (!run || !soFar) return;
    const { player, midi } = this.#parts.inputs;
    this.#strokes = run.strokes;
    if (run.strokes + run.unmapped === 0) {
      this.#ended = { how: 'silent', player };
      return;
    }
    this.#keep({ ...soFar(), isCutShort: false });
    if (player === 'kit' && midi.kind !== 'ready') this.#ended = { how: 'unplugged', player };
  }

  /** Takes a MIDI file as if it had just been played; what is wrong with it is the problem told. */
  async readFile(file: File): Promise<void> {
    const parsed = readMidiFile(new Uint8Array(await file.arrayBuffer()));
    const heard = parsed.ok ? takeInFile(parsed.value) : parsed;
    this.#noProblem();
    if (!heard.ok) {
      this.#problem = `${file.name} could not be read. ${heard.errors[0]!.message}`;
      return;
    }
    const { messages, kit, clickBpm, meter } = heard.value;
    this.#keep({ ...this.#newPlay(), messages, kit, clickBpm, meter, fileName: file.name });
  }

  #newPlay() {
    const { newId = () => crypto.randomUUID(), dateTime = isoNow } = this.#parts;
    return { id: newId(), at: dateTime(), isCutShort: false };
  }

  /** What a run has heard whenever it is asked, as one play; cut short until it is stopped. */
  #beginPlay(run: CaptureRun): () => CaptureTake {
    const begun = { ...this.#newPlay(), isCutShort: true };
    const { kit, clickBpm } = run;
    const { meter } = this.#choices;
    return () => ({
      ...begun,
      messages: run.messages(),
      kit,
      clickBpm,
      meter,
      fileName: undefined,
    });
  }

  /** A handful of strokes takes no place from what was played before. */
  #keep(play: CaptureTake): void {
    const played = decodeTake(play);
    this.open(played);
    const { outcome } = this;
    const isTooFew = outcome?.ok === false && outcome.errors[0]!.code === 'TOO_FEW_STROKES';
    if (isTooFew && played.unmapped.size === 0) void this.#kept.forget(played.id);
    else void this.#kept.keep(played, this.#corrections);
  }

  #noProblem(): void {
    this.#problem = this.#ended = undefined;
  }

  #endedWords(): string | undefined {
    const { inputs } = this.#parts;
    if (this.#ended?.player !== inputs.player) return undefined;
    if (this.#ended.how === 'silent') return nothingPlayed(inputs);
    const { kind, sentence } = inputs.midi;
    return kind === 'ready' ? undefined : `${sentence} What was played before that is kept.`;
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
    this.#beat = run.beat;
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
