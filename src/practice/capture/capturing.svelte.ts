import { capture, type CaptureRefusal, type CaptureReport } from '../../capture/capture';
import { decodeTake, type CaptureTake, type DecodedTake } from '../../capture/capture-take';
import { takeInFile } from '../../capture/take-in-file';
import type { ClockMap } from '../../clock/audio-clock-map';
import { plainTimeline, type LiveTimeline } from '../../live/live-timeline';
import { layerShape } from '../../phrase/layers/layer-shape';
import type { Phrase } from '../../phrase/model/phrase';
import type { AudioEngine } from '../../sound/audio-engine';
import type { SettingsStore } from '../../store/settings-store';
import { readMidiFile } from '../../take/read-midi-file';
import { parseMeter } from '../../time/meter';
import type { Result } from '../../time/result';
import type { Inputs } from '../inputs/inputs.svelte';
import { isoNow } from '../iso-now';
import { JournalWriter } from '../takes/journal-writer';
import type { Player } from '../../take/player';
import type { Rigs } from '../calibration/rigs.svelte';
import type { TransportDependencies } from '../transport';
import { CaptureChoicesShape, FIRST_CAPTURE_CHOICES, type CaptureChoices } from './capture-choices';
import { CaptureRun } from './capture-run';
import type { Corrections } from '../../capture/corrections';
import { CaptureHistory, type Captures } from './capture-history.svelte';
import { randomId } from '../../store/random-id';
import { StartAttempts } from '../start-attempts';

export type CaptureStatus = 'idle' | 'starting' | 'counting in' | 'listening';

/** What capturing works with. */
export interface CapturingDependencies extends TransportDependencies {
  readonly engine: AudioEngine;
  readonly clockMap: ClockMap;
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  readonly plays: Captures;
  readonly inputs: Pick<Inputs, 'tap' | 'follow' | 'player' | 'playedKit' | 'port' | 'file'>;
  readonly rigs: Pick<Rigs, 'beginTake' | 'look'>;
  /** What a player who plays by himself plays: the phrase chosen for practice, at its layer and tempo. */
  readonly practised: () => { phrase: Phrase; layer: number; tempoBpm: number } | undefined;
  /** Practising ends where capturing begins. */
  readonly stopOthers: () => Promise<void>;
  /** ISO 8601. */
  readonly dateTime?: () => string;
  readonly newId?: () => string;
}

/** Somebody is listened to: what was played so far, whenever it is asked, and how much of it is written down. */
interface Listening {
  readonly run: CaptureRun;
  readonly soFar: () => CaptureTake;
  readonly journal: JournalWriter;
  /** Strokes that the journal is known to have. */
  written: number;
}

const SETTING = 'capture';
/** Rounds a simulated player plays: enough for capture to be sure. Chosen. */
const ROUNDS = 8;

/**
 * Catches a phrase that is played several times round, and has it written down. What was played is kept on this
 * machine, and can be written down again in another meter or at another tempo.
 */
export class Capturing {
  readonly #dependencies: CapturingDependencies;
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
  #listening: Listening | undefined;
  readonly #attempts = new StartAttempts('Listening', (sentence) => {
    this.#end();
    this.#problem = sentence;
  });

  constructor(dependencies: CapturingDependencies) {
    this.#dependencies = dependencies;
    const { plays, settings } = dependencies;
    this.#kept = new CaptureHistory(plays);
    this.#choices = settings.read(SETTING, CaptureChoicesShape, FIRST_CAPTURE_CHOICES);
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
    this.#dependencies.settings.write(SETTING, this.#choices);
    if (some.way !== undefined) this.#noProblem();
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
    const { playedKit } = this.#dependencies.inputs;
    if (this.#played) this.#keep({ ...this.#played, kit: playedKit });
  }

  /** Begins to listen; call it from a gesture, since browsers keep quiet without one. */
  async start(): Promise<void> {
    if (this.#status !== 'idle') return;
    this.#status = 'starting';
    this.#noProblem();
    this.#strokes = this.#seconds = this.#bar = this.#beat = 0;
    await this.#attempts.begin((isCurrent) => this.#start(isCurrent));
  }

  async #start(isCurrent: () => boolean): Promise<void> {
    const { engine, inputs, rigs, stopOthers } = this.#dependencies;
    await stopOthers();
    const { name, sentence } = await engine.start();
    if (!isCurrent()) return;
    const { way, tempoBpm, countInBars, meter } = this.#choices;
    const click =
      way === 'to the click'
        ? { bpm: tempoBpm, meter: parseMeter(meter)!, countInBars }
        : undefined;
    if (name !== 'running') {
      this.#problem = click ? `There is no click: ${sentence}` : sentence;
      if (click) {
        this.#status = 'idle';
        return;
      }
    }
    const run: CaptureRun = new CaptureRun(this.#dependencies, {
      kit: inputs.playedKit,
      deviceOffsetMs: rigs.beginTake(inputs.player),
      click,
      timeline: this.#roundsToPlay(click?.bpm),
      onTick: () => this.#tick(listening),
    });
    const soFar = this.#beginPlay(run);
    const listening: Listening = { run, soFar, journal: new JournalWriter(), written: 0 };
    this.#listening = listening;
    this.#status = click ? 'counting in' : 'listening';
    run.start();
  }

  /** Stops listening and writes down what was played, if anything was. */
  stop(): void {
    const listening = this.#end();
    if (!listening) return;
    const { run, soFar } = listening;
    const { player, port } = this.#dependencies.inputs;
    this.#strokes = run.strokes;
    if (run.strokes + run.unmapped === 0) {
      this.#ended = { how: 'silent', player };
      return;
    }
    this.#keep({ ...soFar(), isCutShort: false });
    if (player === 'kit' && port.state.kind !== 'ready') this.#ended = { how: 'unplugged', player };
  }

  /** Ends what listens, which is returned, or a start that is still waited for. */
  #end(): Listening | undefined {
    const listening = this.#listening;
    this.#attempts.giveUp();
    this.#listening = undefined;
    this.#status = 'idle';
    listening?.run.stop();
    return listening;
  }

  /** The page may be left: what was played so far is written down at once. */
  flush(): void {
    if (this.#listening) this.#writeDownSoFar(this.#listening);
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
    const { newId = randomId, dateTime = isoNow } = this.#dependencies;
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
    const { inputs } = this.#dependencies;
    if (this.#ended?.player !== inputs.player) return undefined;
    if (this.#ended.how === 'silent') return nothingPlayed(inputs);
    const { kind, sentence } = inputs.port.state;
    return kind === 'ready' ? undefined : `${sentence} What was played before that is kept.`;
  }

  /** A few rounds of what is practised, at the tempo of the click, for a player who plays by himself. */
  #roundsToPlay(clickBpm: number | undefined): LiveTimeline | undefined {
    const practised = this.#dependencies.practised();
    if (!practised) return undefined;
    const { phrase, layer, tempoBpm } = practised;
    const bpm = clickBpm ?? tempoBpm;
    const timeline = plainTimeline(phrase, layer, bpm);
    const cycleUs = (phrase.cycle / layerShape(phrase, layer).subdivision) * (60e6 / bpm);
    timeline.extendTo((ROUNDS - 0.5) * cycleUs);
    return timeline;
  }

  #tick(listening: Listening): void {
    const { run } = listening;
    this.#strokes = run.strokes;
    this.#seconds = Math.floor(run.seconds);
    this.#bar = run.bar;
    this.#beat = run.beat;
    if (this.#status === 'counting in' && run.nowUs() >= 0) this.#status = 'listening';
    if (run.isOver) this.stop();
    else if (listening.journal.isDue(run.nowUs())) this.#writeDownSoFar(listening);
  }

  #writeDownSoFar(listening: Listening): void {
    const { run, journal, soFar } = listening;
    const arrived = run.strokes + run.unmapped;
    if (arrived === listening.written) return;
    const writing = this.#kept.writeSoFar(soFar()).then((isKept) => {
      if (isKept) listening.written = arrived;
    });
    void journal.write(run.nowUs(), writing);
  }
}

/** Why nothing arrived, and what to do. */
function nothingPlayed({ player, port, file }: Pick<Inputs, 'player' | 'port' | 'file'>): string {
  const nothing = 'Nothing was played.';
  const { kind, sentence, remedy } = port.state;
  switch (player) {
    case 'kit':
      return kind === 'ready'
        ? `${nothing} ${sentence} Strike a pad; if nothing is counted then, look at the Kit screen.`
        : `${nothing} ${sentence} ${remedy}`;
    case 'keyboard and pads':
      return `${nothing} Strike the keys shown or the pads on the screen.`;
    case 'file':
      return file
        ? `${nothing} ${file.name} was stopped before its first stroke.`
        : `${nothing} No MIDI file is chosen yet.`;
    case 'simulated player':
      return `${nothing} The simulated player was stopped before its first stroke.`;
  }
}
