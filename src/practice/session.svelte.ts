import { nextLayer } from '../phrase/layers/next-layer';
import type { Phrase } from '../phrase/model/phrase';
import type { LaneFeed } from '../live/lane-feed';
import type { LiveStats } from '../live/live-stats';
import type { Upcoming } from '../live/upcoming';
import type { StoredTakeSummary } from '../take/take-summary';
import { isByHand, type Player } from '../take/player';
import { ChoicesShape, FIRST_CHOICES, type Choices } from './choices';
import { finishedTake } from './takes/finished-take';
import { isoNow } from './iso-now';
import type { LibraryPhrase } from './library.svelte';
import { loadTakeTools, NOT_FETCHED, type TakeTools } from './takes/load-take-tools';
import { Notices } from './notices.svelte';
import type { LostPlace } from './place-help.svelte';
import { Passes, type PassedTarget } from './passes.svelte';
import { practicable } from './practicable';
import { targetOf, type PracticeTarget } from './whole-target';
import { Remarks } from './remarks';
import type { SessionDependencies } from './session-dependencies';
import { StartAttempts } from './start-attempts';
import { takeInHand, type TakeInHand } from './takes/take-in-hand';
import { TakeProblems } from './takes/take-problems.svelte';
import type { PlanInHand, TempoPlanning } from './tempo-planning.svelte';
import { UpcomingChanges } from './upcoming-changes.svelte';

export type SessionStatus = 'idle' | 'counting in' | 'playing';

const SETTING = 'practice';

/**
 * What the practice screen shows and does. Choices and figures are Svelte state that changes at most
 * once a cycle; what happens at every stroke lives in `lane` and never passes through here.
 */
export class PracticeSession {
  readonly #dependencies: SessionDependencies;
  readonly #notices = new Notices();
  #choices: Choices = $state.raw(FIRST_CHOICES);
  #entry: LibraryPhrase | undefined = $state.raw();
  #status: SessionStatus = $state('idle');
  #stats: LiveStats | undefined = $state.raw();
  readonly #passes = new Passes();
  readonly #remarks = new Remarks();
  #version = $state(0);
  readonly #upcoming = new UpcomingChanges();
  readonly #problems: TakeProblems;
  #planning: TempoPlanning | undefined = $state.raw();
  #placeHelp: LostPlace | undefined = $state.raw();
  #tools: TakeTools | undefined = $state.raw();
  #laneToShow: () => LaneFeed | undefined = $state.raw(() => undefined);
  readonly #lane = $derived(this.#laneToShow());
  readonly #target = $derived(targetOf(this.#tools, this.#entry, this.#choices));
  #lastTake: StoredTakeSummary | undefined = $state.raw();
  #inHand: TakeInHand | undefined;
  readonly #attempts = new StartAttempts('The take', (sentence) => this.#giveUp(sentence));
  #restUs = 0;

  constructor(dependencies: SessionDependencies) {
    this.#dependencies = dependencies;
    const { settings, engine } = dependencies;
    this.#problems = new TakeProblems(dependencies.inputs);
    this.#choices = settings.read(SETTING, ChoicesShape, FIRST_CHOICES);
    engine.setVolume(this.#choices.volume);
    engine.onState((state) => {
      this.#problems.hearSound(state);
      this.#inHand?.interruptions.sound(state.name);
    });
  }

  /** What is practised: the layer that was chosen, or an exercise on it. */
  get target(): PracticeTarget | undefined {
    return this.#target;
  }
  get phrase(): Phrase | undefined {
    return this.#target?.phrase;
  }
  /** Of what is practised; 1-based. */
  get layer(): number {
    return this.#target?.layer ?? this.#choices.layer;
  }
  get choices(): Choices {
    return this.#choices;
  }
  get status(): SessionStatus {
    return this.#status;
  }
  get stats(): LiveStats | undefined {
    return this.#stats;
  }
  /** What was passed in the take that is played. */
  get passed(): readonly PassedTarget[] {
    return this.#passes.passed;
  }
  /** Whose the figures are. */
  get playedBy(): Player | undefined {
    return this.#passes.player;
  }
  /** The layer passed last, as long as nothing else was chosen. */
  get justPassed(): number | undefined {
    return this.#passes.justPassed;
  }
  /** Grows whenever the lane's past has changed enough to read it again: once a cycle. */
  get version(): number {
    return this.#version;
  }
  /** What is decided and still to come, in time order. */
  get upcoming(): readonly Upcoming[] {
    return this.#upcoming.current;
  }
  get problem(): string | undefined {
    return this.#problems.current;
  }
  /** The tempo plan of the take that is played, and where it stands. */
  get plan(): PlanInHand | undefined {
    return this.#planning?.now;
  }
  /** What is said and can be done while the place is lost, in the take that is played. */
  get placeHelp(): LostPlace | undefined {
    return this.#placeHelp;
  }
  /** What has just interrupted the take and is over; each goes by itself. */
  get notices(): readonly string[] {
    return this.#notices.current;
  }
  /** What the lane draws: the take being played, the last one, or what would be due, once its tools are fetched. */
  get lane(): LaneFeed | undefined {
    return this.#lane;
  }
  get lastTake(): StoredTakeSummary | undefined {
    return this.#lastTake;
  }

  /** The playhead, integer microseconds from bar 1 beat 1; after a take where its last stroke fell. */
  nowUs(): number {
    return this.#inHand?.run.nowUs() ?? this.#restUs;
  }

  /** Fetches what the lane and a take need; rejects where it cannot be fetched. */
  async fetchTools(): Promise<void> {
    const { loadTools = loadTakeTools } = this.#dependencies;
    this.#tools ??= await loadTools();
  }

  choosePhrase(entry: LibraryPhrase): void {
    if (this.#status !== 'idle') return;
    const { layers, tempoBpm } = entry.phrase;
    this.#entry = entry;
    this.#passes.clear();
    this.#stats = undefined;
    this.#keepChoices(
      entry.id === this.#choices.phraseId
        ? { layer: Math.min(this.#choices.layer, layers.length) }
        : { phraseId: entry.id, layer: 1, tempoBpm, exercise: undefined },
    );
    this.#preview();
  }

  /**
   * Chooses how to practise. While a take is played another layer begins at the next realignment, another tempo (a
   * whole one, as quick as the phrase's meter may be) at the next cycle, and a count-in or hit windows with the next take.
   * An exercise and the leading hand are chosen between takes.
   */
  choose(some: Partial<Omit<Choices, 'phraseId'>>): void {
    const before = this.#choices;
    const isNewTarget = 'exercise' in some || 'leadingHand' in some;
    if (isNewTarget && this.#inHand) return;
    this.#keepChoices({
      ...some,
      ...(some.tempoBpm !== undefined && { tempoBpm: practicable(some.tempoBpm, this.phrase) }),
    });
    const { layer, tempoBpm, windows, click, reference, count, volume } = this.#choices;
    if (volume !== before.volume) this.#dependencies.engine.setVolume(volume);
    if (some.layer !== undefined || some.tempoBpm !== undefined) this.#passes.goOn();
    if (isNewTarget) this.#passes.clear();
    if (isNewTarget) this.#stats = undefined;
    const isNewLayer = layer !== before.layer && !this.#target?.isExercise;
    const isNewTempo = tempoBpm !== before.tempoBpm;
    const run = this.#inHand?.run;
    if (!run) {
      if (isNewTarget || isNewLayer || isNewTempo || windows !== before.windows) this.#preview();
      return;
    }
    if (isNewLayer) this.#upcoming.announce(run, run.changeLayer(layer));
    if (isNewTempo) this.#upcoming.announce(run, run.changeTempo(tempoBpm));
    this.#planning?.follow(this.#choices, this.layer);
    if (click !== before.click || reference !== before.reference || count !== before.count)
      run.renewSounds();
  }

  /**
   * Starts a take; call it from a gesture, since browsers keep quiet without one. Whatever fails on the way is told as
   * a problem, and it can be tried again; so is a kit that is to play and is not there.
   */
  async start(): Promise<void> {
    if (!this.#entry || this.#status !== 'idle') return;
    this.#status = 'counting in';
    this.#problems.begin();
    const { engine, inputs, ready } = this.#dependencies;
    await this.#attempts.begin(async (isCurrent) => {
      await Promise.all([engine.start(), ready?.(), this.fetchTools().catch(() => undefined)]);
      const tools = this.#tools;
      if (!isCurrent()) return;
      if (!tools) this.#giveUp(NOT_FETCHED);
      else if (inputs.kitAway) {
        this.#problems.isRefused = true;
        this.#end();
      } else this.#begin(this.#target!, tools);
    });
  }

  #giveUp(sentence: string): void {
    this.#problems.notStarted = sentence;
    void this.#end()?.journal.end();
  }

  /** Ends the take in hand, which is returned, or a start that is still waited for. */
  #end(): TakeInHand | undefined {
    const inHand = this.#inHand;
    this.#attempts.giveUp();
    this.#inHand = undefined;
    this.#status = 'idle';
    this.#upcoming.clear();
    this.#planning = this.#placeHelp = undefined;
    inHand?.run.stop();
    inHand?.interruptions.end();
    return inHand;
  }

  #begin(target: PracticeTarget, tools: TakeTools): void {
    const { engine, inputs, rigs, today = isoNow } = this.#dependencies;
    this.#planning = new tools.TempoPlanning(target.phrase, (bpm) =>
      this.choose({ tempoBpm: bpm }),
    );
    this.#keepChoices({ tempoBpm: this.#planning.begin(this.#choices, target.layer) });
    const take = new tools.LiveTake(
      tools.chosenTimeline(target, this.#choices),
      inputs.playedKit,
      rigs.beginTake(inputs.player),
    );
    engine.prepare(take.timeline.voices, this.#choices.count.follows !== 'off');
    this.#passes.begin({ ...this.#choices, layer: target.layer }, inputs.player, this.#stats);
    this.#stats = undefined;
    this.#upcoming.clear();
    this.#notices.clear();
    this.#remarks.begin();
    const started = { startedAt: today(), phraseText: target.text, exercise: target.exercise };
    const inHand = takeInHand(this.#dependencies, tools, take, {
      choices: () => this.#choices,
      head: () => ({ ...started, player: this.#passes.player, trials: this.#passes.trials }),
      onCycle: (stats, share) => {
        this.#afterCycle(stats);
        this.#planning?.afterCycle(stats, share);
      },
      onTick: (running) => this.#tick(running),
      onReadAgain: ({ run }) => this.#show(() => run.take),
      announce: (run, changes) => this.#upcoming.announce(run, ...changes),
      onFull: () => void this.stop(),
      tellInterruption: (sentence) => this.#notices.tell(sentence),
      problems: this.#problems,
    });
    this.#inHand = inHand;
    this.#placeHelp = inHand.placeHelp;
    inHand.run.start();
    this.#show(() => take);
  }

  /** Stops and keeps the take, if anything was struck; a start that is still waited for comes to nothing. */
  async stop(): Promise<void> {
    const endUs = this.nowUs();
    const inHand = this.#end();
    if (!inHand) return;
    const { take } = inHand.run;
    this.#restUs = take.strokeTimeUs[take.strokeCount - 1] ?? Math.max(0, endUs);
    if (await this.#keepTake(inHand, endUs)) await inHand.journal.end();
    else inHand.journal.leave();
    this.#problems.unwritten = undefined;
  }

  /** What went wrong before does not count: a new trial of the layer begins now. */
  tryAgain(): void {
    const nowUs = this.#inHand?.run.nowUs();
    if (nowUs !== undefined) this.#passes.beginTrial(nowUs);
  }

  /** The pass of the trial that is played was given by mistake: it does not count, and a new trial begins. */
  takeBack(): void {
    if (!this.#inHand) return;
    const { run, tools } = this.#inHand;
    this.#passes.takeBack(tools.trialsSoFar(run.take, run.nowUs(), this.#passes.trials));
    this.tryAgain();
  }

  /** The bar that is played, which is answered, does not count: a stick fell. */
  leaveOutBar(): number | undefined {
    return this.#inHand && this.#passes.leaveOut(this.#inHand.run.bar);
  }

  /** The page may be left: what was played so far is written down at once. */
  flush(): void {
    if (this.#inHand) this.#inHand.journal.flush(this.#inHand.run);
  }

  /** Whether nothing of the take is left that the journal should hold on to. */
  async #keepTake({ run, journal, tools, head }: TakeInHand, endUs: number): Promise<boolean> {
    const take = finishedTake(run.take, head(), endUs);
    const opened = tools.openTake(take);
    const summary = tools.summaryOf(take, opened);
    if (!opened && take.messages.length > 0) this.#notices.tell(tools.NOT_JUDGED);
    if (!opened || !summary || summary.notes === 0) {
      this.#preview();
      return opened !== undefined;
    }
    this.#stats = tools.finalStats(opened.lane, take.trials);
    this.#show(() => opened.lane);
    const added = await this.#dependencies.takes.add(take, summary, journal.id);
    this.#lastTake = added.summary;
    this.#passes.kept();
    return added.problem === undefined;
  }

  #keepChoices(some: Partial<Choices>): void {
    this.#choices = { ...this.#choices, ...some };
    this.#dependencies.settings.write(SETTING, this.#choices);
  }

  /** Shows the lane before anything is played: laid out once somebody reads it, since a phrase is saved far more often. */
  #preview(): void {
    if (!this.#entry) return;
    const choices = this.#choices;
    const { playedKit } = this.#dependencies.inputs;
    this.#restUs = 0;
    this.#show(() => this.#tools?.previewLane(this.#target!, choices, playedKit));
  }

  #show(lane: () => LaneFeed | undefined): void {
    this.#laneToShow = lane;
    this.#version++;
  }

  #tick({ run }: TakeInHand): void {
    const nowUs = run.nowUs();
    this.#status = run.isCountingIn ? 'counting in' : 'playing';
    this.#upcoming.pass(nowUs);
    this.#passes.goOnWith(this.#dependencies.inputs.player);
  }

  #afterCycle(stats: LiveStats): void {
    const before = this.#stats;
    const bar = this.#inHand?.run.bar ?? 1;
    this.#stats = this.#remarks.beside(stats, bar, this.#choices, this.#passes.passed);
    this.#version++;
    if (!stats.gate.passed || !isByHand(this.#passes.player)) return;
    const next = this.phrase && nextLayer(this.phrase, stats.layer);
    const { moveOn, layer } = this.#choices;
    if (moveOn && next !== undefined && stats.layer === layer && !this.#planning?.isUnderway)
      this.choose({ layer: next, ...this.#planning?.again });
    this.#passes.add(stats, before);
  }
}
