import type { Kit } from '../kit/kit';
import { IGNORED } from '../kit/kit-reader';
import { nextLayer } from '../phrase/layers/next-layer';
import type { Phrase } from '../phrase/model/phrase';
import { TEMPO_BPM } from '../phrase/model/phrase-file';
import { tempoRange } from '../phrase/model/tempo-range';
import type { StoredTakeSummary } from '../take/take-summary';
import { ChoicesShape, FIRST_CHOICES, type Choices } from './choices';
import { chosenTimeline, previewTimeline } from './chosen-timeline';
import { finishedTake, summaryOf } from './finished-take';
import type { LaneFeed } from '../live/lane-feed';
import type { LibraryPhrase } from './library.svelte';
import { finalStats, liveStats, type LiveStats } from '../live/live-stats';
import { LiveTake } from '../live/live-take';
import { openTake } from '../live/open-take';
import { PassingNotices } from './passing-notices.svelte';
import type { SessionParts } from './session-parts';
import { TakeCare } from './take-care';
import { TakeRun } from './take-run';
import { withUpcoming, type Upcoming } from '../live/upcoming';
import { clamp } from '../time/whole';

export type SessionStatus = 'idle' | 'counting in' | 'playing';

const SETTING = 'practice';

/**
 * What the practice screen shows and does. Choices and figures are Svelte state that changes at most
 * once a cycle; what happens at every stroke lives in `lane` and never passes through here.
 */
export class PracticeSession {
  readonly #parts: SessionParts;
  readonly #nowMs: () => number;
  readonly #notices = new PassingNotices();
  #choices: Choices = $state.raw(FIRST_CHOICES);
  #entry: LibraryPhrase | undefined = $state.raw();
  #status: SessionStatus = $state('idle');
  #stats: LiveStats | undefined = $state.raw();
  #passed: readonly number[] = $state.raw([]);
  #version = $state(0);
  #upcoming: readonly Upcoming[] = $state.raw([]);
  #problem: string | undefined = $state();
  #lane: LaneFeed | undefined = $state.raw();
  #lastTake: StoredTakeSummary | undefined = $state.raw();
  #run: TakeRun | undefined;
  #restUs = 0;
  #startedAt = '';
  #care: TakeCare | undefined;

  constructor(parts: SessionParts) {
    this.#parts = parts;
    this.#nowMs = parts.nowMs ?? (() => performance.now());
    this.#choices = parts.settings.read(SETTING, ChoicesShape, FIRST_CHOICES);
    parts.engine.setVolume(this.#choices.volume);
    parts.engine.onState(({ name, sentence }) => {
      this.#problem = name === 'failed' || name === 'suspended' ? sentence : undefined;
      this.#care?.interruptions.sound(name);
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
  get stillPage(): boolean {
    return this.#choices.stillPage;
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
  /** What is decided and still to come, in time order. */
  get upcoming(): readonly Upcoming[] {
    return this.#upcoming;
  }
  get problem(): string | undefined {
    return this.#problem;
  }
  /** What has just interrupted the take and is over; each goes by itself. */
  get notices(): readonly string[] {
    return this.#notices.current;
  }
  /** What the lane draws: the take being played, the last one, or what would be due. */
  get lane(): LaneFeed | undefined {
    return this.#lane;
  }
  get lastTake(): StoredTakeSummary | undefined {
    return this.#lastTake;
  }

  /** The playhead, integer microseconds from bar 1 beat 1; after a take where its last stroke fell. */
  nowUs(): number {
    return this.#run?.nowUs() ?? this.#restUs;
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
    if (this.#run) this.#announce({ layer, bar: this.#run.changeLayer(layer), atUs: 0 });
    this.#choose({ layer });
    if (!this.#run) this.#preview();
  }

  /** As quick as the phrase's meter may be (tempoRange); while playing from the next cycle start on. */
  setTempo(bpm: number): void {
    const { phrase } = this;
    const { least, most } = phrase ? tempoRange(phrase.meter, phrase.subdivision) : TEMPO_BPM;
    const tempoBpm = clamp(Math.round(bpm), least, most);
    if (tempoBpm === this.#choices.tempoBpm) return;
    if (this.#run) this.#announce({ bpm: tempoBpm, atUs: this.#run.changeTempo(tempoBpm) });
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
  setStillPage(stillPage: boolean): void {
    this.#choose({ stillPage });
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
    await Promise.all([engine.start(), this.#parts.ready?.()]);
    const timeline = chosenTimeline(this.#entry.phrase, this.#choices);
    const take = new LiveTake(timeline, this.#parts.kit(), this.#parts.deviceOffsetMs?.() ?? 0);
    engine.prepare(take.timeline.notes.map(({ note }) => note.voice));
    this.#observeClocks();
    this.#startedAt = (this.#parts.today ?? isoNow)();
    this.#stats = undefined;
    this.#upcoming = [];
    const run: TakeRun = new TakeRun({
      take,
      engine,
      clockMap: this.#parts.clockMap,
      click: () => this.#choices.click,
      reference: () => this.#choices.reference,
      nowMs: this.#nowMs,
      onCycle: (at) => this.#afterCycle(run.take, at),
    });
    this.#run = run;
    // The pump's thread may take longer to come up than the first click has time.
    run.tick();
    this.#lane = take;
    this.#version++;
    this.#notices.clear();
    this.#care = new TakeCare({
      run,
      journal: this.#parts.journal,
      phraseText: this.#entry.text,
      startedAt: this.#startedAt,
      nowMs: this.#nowMs,
      tell: (sentence) => this.#notices.tell(sentence),
      onTick: () => this.#tick(),
    });
    this.#parts.onRun?.(run);
  }

  /** A raw message from any source, with its own time on the performance clock, ms. */
  receive(timeMs: number, status: number, data1: number, data2: number): number {
    if (!this.#run) return IGNORED;
    this.#care?.interruptions.delivered(timeMs, this.#nowMs());
    return this.#run.receive(timeMs, status, data1, data2);
  }

  /** The notes of the kit mean something else: in a take that runs from its first stroke on. */
  useKit(kit: Kit): void {
    if (!this.#run) return;
    this.#run.useKit(kit);
    this.#lane = this.#run.take;
    this.#version++;
  }

  /** Stops and keeps the take, if anything was struck. */
  async stop(): Promise<void> {
    const run = this.#run;
    const care = this.#care;
    if (!run || !care) return;
    const endUs = run.nowUs();
    this.#restUs = run.take.strokeTimeUs[run.take.strokeCount - 1] ?? Math.max(0, endUs);
    this.#run = undefined;
    this.#care = undefined;
    this.#status = 'idle';
    this.#upcoming = [];
    care.stop();
    run.stop();
    this.#parts.onRun?.(undefined);
    await this.#keep(run, endUs, care.journalId);
    await care.endJournal();
  }

  async #keep(run: TakeRun, endUs: number, id: string): Promise<void> {
    const take = finishedTake(run.take, this.#entry?.text ?? '', this.#startedAt, endUs);
    const opened = openTake(take);
    const summary = summaryOf(take, opened);
    if (!opened || !summary || summary.notes === 0) return this.#preview();
    this.#lane = opened.lane;
    this.#stats = finalStats(opened.lane);
    this.#version++;
    const added = await this.#parts.takes.add(take, summary, id);
    this.#lastTake = added.summary;
    this.#problem = added.problem?.message;
  }

  #announce(change: Upcoming): void {
    const { tempo, phrase } = this.#run!.take.timeline.plan;
    this.#upcoming = withUpcoming(this.#upcoming, change, tempo, phrase.meter.beatsPerBar);
  }

  #choose(some: Partial<Choices>): void {
    this.#choices = { ...this.#choices, ...some };
    this.#parts.settings.write(SETTING, this.#choices);
  }

  /** The lane before anything is played. */
  #preview(): void {
    if (!this.#entry) return;
    const timeline = previewTimeline(this.#entry.phrase, this.#choices);
    const take = new LiveTake(timeline, this.#parts.kit());
    take.sync();
    this.#restUs = 0;
    this.#lane = take;
    this.#version++;
  }

  #observeClocks(): void {
    const reading = this.#parts.engine.observe();
    if (reading) this.#parts.clockMap.observe(reading);
  }

  #tick(): void {
    const run = this.#run;
    if (!run) return;
    this.#observeClocks();
    run.tick();
    this.#parts.onTick?.(run);
    const nowUs = run.nowUs();
    if (this.#status === 'counting in' && nowUs >= 0) this.#status = 'playing';
    if (this.#upcoming.some(({ atUs }) => nowUs >= atUs))
      this.#upcoming = this.#upcoming.filter(({ atUs }) => nowUs < atUs);
  }

  #afterCycle(take: LiveTake, at: number): void {
    const stats = liveStats(take, at);
    this.#stats = stats;
    this.#version++;
    if (!stats.gate.passed) return;
    if (!this.#passed.includes(stats.layer)) this.#passed = [...this.#passed, stats.layer];
    const next = nextLayer(take.timeline.plan.phrase, stats.layer);
    if (this.#choices.moveOn && next !== undefined && stats.layer === this.#choices.layer)
      this.chooseLayer(next);
  }
}

const isoNow = (): string => new Date(Date.now()).toISOString();
