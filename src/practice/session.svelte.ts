import { createClockMap } from '../clock/audio-clock-map';
import { startPump } from '../clock/pump';
import { keepScreenOn, type ScreenWakeLock } from '../clock/wake-lock';
import type { Kit } from '../kit/kit';
import { IGNORED } from '../kit/kit-reader';
import type { Phrase } from '../phrase/phrase';
import type { AudioEngine } from '../sound/audio-engine';
import type { StoredTakeSummary } from '../store/take-summary';
import type { SettingsStore } from '../store/settings-store';
import type { TakeJournal } from '../store/take-journal';
import type { TakeStore } from '../store/take-store';
import { beats } from '../time/beats';
import { ChoicesShape, FIRST_CHOICES, type Choices } from './choices';
import { finishedTake, summaryOf } from './finished-take';
import { JournalKeeper } from './journal-keeper';
import type { LaneFeed } from './lane-feed';
import type { LibraryPhrase } from './library.svelte';
import { liveStats, type LiveStats } from './live-stats';
import { LiveTake } from './live-take';
import { LiveTimeline } from './live-timeline';
import { TakeRun } from './take-run';

export type SessionStatus = 'idle' | 'counting in' | 'playing';

/** A change that is decided and begins at a bar line or a cycle start to come. */
export interface Upcoming {
  readonly layer?: number;
  readonly bpm?: number;
  /** Integer microseconds from bar 1 beat 1. */
  readonly atUs: number;
}

export interface SessionParts {
  readonly engine: AudioEngine;
  readonly takes: Pick<TakeStore, 'add'>;
  readonly journal: Pick<TakeJournal, 'begin'>;
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  /** The kit whose notes will come. */
  readonly kit: () => Kit;
  /** Told when a take begins and ends, so that sources that play by themselves can follow. */
  readonly onRun?: (run: TakeRun | undefined) => void;
  /** Told about ten times a second while a take runs. */
  readonly onTick?: (run: TakeRun) => void;
  readonly nowMs?: () => number;
  /** The date and time, ISO 8601. */
  readonly today?: () => string;
}

const SETTING = 'practice';

/**
 * What the practice screen shows and does. Choices and figures are Svelte state that changes at most
 * once a cycle; what happens at every stroke lives in `lane` and never passes through here.
 */
export class PracticeSession {
  readonly #parts: SessionParts;
  readonly #nowMs: () => number;
  readonly #clockMap = createClockMap();
  #choices: Choices = $state.raw(FIRST_CHOICES);
  #entry: LibraryPhrase | undefined = $state.raw();
  #status: SessionStatus = $state('idle');
  #stats: LiveStats | undefined = $state.raw();
  #passed: readonly number[] = $state.raw([]);
  #version = $state(0);
  #upcoming: Upcoming | undefined = $state.raw();
  #problem: string | undefined = $state();
  #lane: LaneFeed | undefined = $state.raw();
  #lastTake: StoredTakeSummary | undefined = $state.raw();
  #run: TakeRun | undefined;
  #startedAt = '';
  #journal: JournalKeeper | undefined;
  #stopPump: (() => void) | undefined;
  #screen: ScreenWakeLock | undefined;

  constructor(parts: SessionParts) {
    this.#parts = parts;
    this.#nowMs = parts.nowMs ?? (() => performance.now());
    this.#choices = parts.settings.read(SETTING, ChoicesShape, FIRST_CHOICES);
    parts.engine.setVolume(this.#choices.volume);
    parts.engine.onState(({ name, sentence }) => {
      this.#problem = name === 'failed' || name === 'suspended' ? sentence : undefined;
    });
  }

  get phrase(): Phrase | undefined {
    return this.#entry?.phrase;
  }
  get phraseId(): string {
    return this.#choices.phraseId;
  }
  get layer(): number {
    return Math.min(this.#choices.layer, this.phrase?.layers.length ?? 1);
  }
  get tempoBpm(): number {
    return this.#choices.tempoBpm;
  }
  get click(): Choices['click'] {
    return this.#choices.click;
  }
  get reference(): Choices['reference'] {
    return this.#choices.reference;
  }
  get countInBars(): number {
    return this.#choices.countInBars;
  }
  get windows(): Choices['windows'] {
    return this.#choices.windows;
  }
  get moveOn(): boolean {
    return this.#choices.moveOn;
  }
  get volume(): number {
    return this.#choices.volume;
  }
  get status(): SessionStatus {
    return this.#status;
  }
  get stats(): LiveStats | undefined {
    return this.#stats;
  }
  /** Layers passed since the phrase was chosen, 1-based. */
  get passed(): readonly number[] {
    return this.#passed;
  }
  /** Grows whenever the lane's past has changed enough to read it again: once a cycle. */
  get version(): number {
    return this.#version;
  }
  get upcoming(): Upcoming | undefined {
    return this.#upcoming;
  }
  get problem(): string | undefined {
    return this.#problem;
  }
  /** What the lane draws: the take being played, the last one, or what would be due. */
  get lane(): LaneFeed | undefined {
    return this.#lane;
  }
  get lastTake(): StoredTakeSummary | undefined {
    return this.#lastTake;
  }

  /** The playhead, integer microseconds from bar 1 beat 1. */
  nowUs(): number {
    return this.#run?.nowUs() ?? 0;
  }

  choosePhrase(entry: LibraryPhrase): void {
    if (this.#run) return;
    const again = entry.id === this.#choices.phraseId;
    this.#entry = entry;
    this.#passed = [];
    this.#stats = undefined;
    const layer = again ? Math.min(this.#choices.layer, entry.phrase.layers.length) : 1;
    const tempoBpm = again ? this.#choices.tempoBpm : entry.phrase.tempoBpm;
    this.#choose({ phraseId: entry.id, layer, tempoBpm });
    this.#preview();
  }

  /** While playing the layer begins at the next realignment. */
  chooseLayer(layer: number): void {
    if (layer === this.#choices.layer) return;
    if (this.#run) {
      const bar = this.#run.changeLayer(layer);
      const { plan } = this.#run.take.timeline;
      const atUs = plan.tempo.usAt(beats((bar - 1) * plan.phrase.meter.beatsPerBar));
      this.#upcoming = { layer, atUs };
    }
    this.#choose({ layer });
    if (!this.#run) this.#preview();
  }

  /** 30 to 300 beats a minute; while playing from the next cycle start on. */
  setTempo(bpm: number): void {
    const tempoBpm = Math.min(300, Math.max(30, Math.round(bpm)));
    if (tempoBpm === this.#choices.tempoBpm) return;
    if (this.#run) this.#upcoming = { bpm: tempoBpm, atUs: this.#run.changeTempo(tempoBpm) };
    this.#choose({ tempoBpm });
    if (!this.#run) this.#preview();
  }

  setClick(click: Choices['click']): void {
    this.#choose({ click });
    this.#run?.soundsChanged();
  }
  setReference(reference: Choices['reference']): void {
    this.#choose({ reference });
    this.#run?.soundsChanged();
  }
  setCountIn(countInBars: number): void {
    this.#choose({ countInBars });
  }
  setWindows(windows: Choices['windows']): void {
    this.#choose({ windows });
    if (!this.#run) this.#preview();
  }
  setMoveOn(moveOn: boolean): void {
    this.#choose({ moveOn });
  }
  setVolume(volume: number): void {
    this.#choose({ volume });
    this.#parts.engine.setVolume(volume);
  }

  /** Starts a take; call it from a gesture, since browsers keep quiet without one. */
  async start(): Promise<void> {
    if (!this.#entry || this.#status !== 'idle') return;
    this.#status = 'counting in';
    const { engine } = this.#parts;
    await engine.start();
    const take = new LiveTake(this.#timeline(this.#entry.phrase), this.#parts.kit());
    engine.prepare(take.timeline.notes.map(({ note }) => note.voice));
    this.#observeClocks();
    this.#startedAt = (this.#parts.today ?? isoNow)();
    this.#journal = new JournalKeeper(this.#parts.journal, this.#entry.text, this.#startedAt);
    this.#stats = undefined;
    this.#upcoming = undefined;
    const run = new TakeRun({
      take,
      engine,
      clockMap: this.#clockMap,
      click: () => this.#choices.click,
      reference: () => this.#choices.reference,
      nowMs: this.#nowMs,
      onCycle: (at) => this.#afterCycle(take, at),
    });
    this.#run = run;
    this.#lane = take;
    this.#version++;
    this.#screen = keepScreenOn();
    this.#stopPump = startPump(() => this.#tick());
    this.#parts.onRun?.(run);
  }

  /** A raw message from any source, with its own time on the performance clock, ms. */
  receive(timeMs: number, status: number, data1: number, data2: number): number {
    return this.#run ? this.#run.receive(timeMs, status, data1, data2) : IGNORED;
  }

  /** Stops and keeps the take, if anything was struck. */
  async stop(): Promise<void> {
    const run = this.#run;
    if (!run) return;
    const endUs = run.nowUs();
    this.#run = undefined;
    this.#status = 'idle';
    this.#upcoming = undefined;
    this.#stopPump?.();
    this.#screen?.release();
    run.stop();
    this.#parts.onRun?.(undefined);
    run.take.advance(Infinity);
    this.#version++;
    await this.#keep(run, endUs);
    await this.#journal?.end();
  }

  async #keep(run: TakeRun, endUs: number): Promise<void> {
    if (run.take.strokeCount === 0 || !this.#entry) return;
    const take = finishedTake(run.take, this.#entry.text, this.#startedAt, endUs);
    const summary = summaryOf(take);
    if (!summary) return;
    const added = await this.#parts.takes.add(take, summary, this.#journal?.id);
    this.#lastTake = added.summary;
    this.#problem = added.problem?.message;
  }

  #choose(some: Partial<Choices>): void {
    this.#choices = { ...this.#choices, ...some };
    this.#parts.settings.write(SETTING, this.#choices);
  }

  #timeline(phrase: Phrase): LiveTimeline {
    return new LiveTimeline({
      phrase,
      passages: [{ fromBar: 1, layer: this.layer }],
      tempos: [{ fromBeat: beats(0), bpm: this.#choices.tempoBpm }],
      windows: this.#choices.windows,
      countInBars: this.#choices.countInBars,
    });
  }

  /** The lane before anything is played. */
  #preview(): void {
    if (!this.#entry) return;
    const timeline = this.#timeline(this.#entry.phrase);
    timeline.extendTo(PREVIEW_US);
    const take = new LiveTake(timeline, this.#parts.kit());
    take.sync();
    this.#lane = take;
    this.#version++;
  }

  #observeClocks(): void {
    const reading = this.#parts.engine.observe();
    if (reading) this.#clockMap.observe(reading);
  }

  #tick(): void {
    const run = this.#run;
    if (!run) return;
    this.#observeClocks();
    run.tick();
    this.#parts.onTick?.(run);
    this.#journal?.tick(run, this.#nowMs());
    const nowUs = run.nowUs();
    if (this.#status === 'counting in' && nowUs >= 0) this.#status = 'playing';
    if (this.#upcoming && nowUs >= this.#upcoming.atUs) this.#upcoming = undefined;
  }

  #afterCycle(take: LiveTake, at: number): void {
    const stats = liveStats(take, at);
    this.#stats = stats;
    this.#version++;
    if (!stats.gate.passed) return;
    if (!this.#passed.includes(stats.layer)) this.#passed = [...this.#passed, stats.layer];
    const isLast = stats.layer >= take.timeline.plan.phrase.layers.length;
    if (this.#choices.moveOn && !isLast && stats.layer === this.#choices.layer)
      this.chooseLayer(stats.layer + 1);
  }
}

const isoNow = (): string => new Date(Date.now()).toISOString();

/** How much of the target the lane shows before the start. Chosen, not measured. */
const PREVIEW_US = 20_000_000;
