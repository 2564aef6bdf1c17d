import { COMMANDS, type Command } from '../../control/command';
import { controlKey, type CommandControl, type Control } from '../../control/control';
import { ControlRecogniser, ECHO, NO_COMMAND } from '../../control/control-recogniser';
import { controlRules } from '../../control/control-rules';
import { keyName } from '../../control/key-name';
import { padBeats } from '../../control/pad-beats';
import { spotAt, type Spot } from '../../control/spot';
import type { KitMessage } from '../../kit/kit-decoder';
import { KEY_STROKES } from '../../midi/key-strokes';
import type { SettingsStore } from '../../store/settings-store';
import { isByHand } from '../../take/player';
import type { Inputs } from '../inputs/inputs.svelte';
import type { PracticeSession } from '../session.svelte';
import type { TakeRun } from '../takes/take-run';
import { ControlLearning } from './control-learning.svelte';
import { FIRST_KEYS } from './first-keys';
import { performCommand } from './perform-command';
import { ControlsShape, MOST_CONTROLS, STEP_BPM, type ControlChoices } from './stored-controls';

const SETTING = 'controls';

/** How long a command stands on the screen, ms. Chosen, not measured: read from the throne while playing on. */
const SHOWN_MS = 2000;

const FIRST_CONTROLS: ControlChoices = {
  controls: [...FIRST_KEYS].map(([key, command]) => ({ command, control: { kind: 'key', key } })),
  stepBpm: STEP_BPM.first,
};

export interface ControlDependencies {
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  readonly session: Pick<
    PracticeSession,
    'status' | 'choices' | 'choose' | 'start' | 'stop' | 'phrase' | 'target' | 'placeHelp'
  >;
  readonly inputs: Pick<Inputs, 'tap' | 'player' | 'playedKit' | 'monitor'>;
  /** Whether Practise is the screen that is shown: elsewhere a take is only stopped. */
  readonly isOnPractise: () => boolean;
}

/** A command as it is confirmed. */
export interface GivenCommand {
  readonly words: string;
  /** Tells one from the next of the same words. */
  readonly number: number;
}

/**
 * What gives commands to the app while the hands are full: pads, pedals, foot switches and keys; kept, learned,
 * recognised, done and confirmed.
 */
export class Controls {
  readonly learning: ControlLearning;
  readonly #dependencies: ControlDependencies;
  #choices: ControlChoices = $state.raw(FIRST_CONTROLS);
  #shown: GivenCommand | undefined = $state.raw();
  #spots: readonly Spot[] = $state.raw([]);
  #spotsOf = $state.raw({ phraseId: '', isExercise: false });
  readonly #hasPads = $derived(
    this.#choices.controls.some(({ control }) => control.kind === 'pad'),
  );
  readonly #hasOfKit = $derived(
    this.#choices.controls.some(({ control }) => control.kind !== 'key'),
  );
  readonly #beats = $derived.by(() => {
    const { session, inputs } = this.#dependencies;
    return this.#hasPads && session.phrase ? padBeats(session.phrase, inputs.playedKit) : undefined;
  });
  /** The quickest tempo of the take that is played. */
  #quickestBpm = $state(0);
  readonly #rules = $derived.by(() => {
    const { session, inputs } = this.#dependencies;
    const quickestBpm = Math.max(this.#quickestBpm, session.choices.tempoBpm);
    return controlRules(this.#choices.controls, inputs.playedKit, this.#beats, quickestBpm);
  });
  readonly #recogniser: ControlRecogniser;
  /** Whether the kit is listened to, for a pad or a foot switch; plain, for the live path. */
  #isOn = false;
  #run: TakeRun | undefined;
  #number = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(dependencies: ControlDependencies) {
    this.#dependencies = dependencies;
    const { settings, session, inputs, isOnPractise } = dependencies;
    this.#choices = settings.read(SETTING, ControlsShape, FIRST_CONTROLS);
    this.learning = new ControlLearning(() => inputs.playedKit);
    this.#recogniser = new ControlRecogniser(this.#rules);
    $effect.root(() => {
      $effect(() => this.#recogniser.follow(this.#rules));
      $effect(() => {
        this.#isOn =
          this.#hasOfKit &&
          isByHand(inputs.player) &&
          (isOnPractise() || session.status !== 'idle');
      });
      $effect(() => this.#leaveOutSwitches());
    });
    inputs.tap({ onMessage: (message) => this.#hear(message) });
  }

  /** Every control with its command, in the order of the commands. */
  get all(): readonly CommandControl[] {
    return COMMANDS.flatMap((command) => this.of(command));
  }
  get stepBpm(): number {
    return this.#choices.stepBpm;
  }
  /** How strikes and switches are told from playing, with the phrase and kit that are chosen. */
  get rules() {
    return this.#rules;
  }
  /** The command that was given last, as long as it is shown. */
  get shown(): GivenCommand | undefined {
    return this.#shown;
  }
  /** Spots that were marked in the take that is played, or in the last one, as long as its phrase is chosen. */
  get spots(): readonly Spot[] {
    return this.#spotsOf.phraseId === this.#dependencies.session.choices.phraseId
      ? this.#spots
      : [];
  }
  /** Whether they are of an exercise: then they are no places of the whole. */
  get areOfExercise(): boolean {
    return this.#spotsOf.isExercise;
  }

  of(command: Command): readonly CommandControl[] {
    return this.#choices.controls.filter((one) => one.command === command);
  }

  /** Gives a control a command, and takes it from the one it had; that one, if any. */
  add(command: Command, control: Control): Command | undefined {
    const before = this.#withKey(control);
    const others = this.#choices.controls.filter((one) => one !== before);
    this.#keep({ controls: [...others, { command, control }].slice(-MOST_CONTROLS) });
    return before?.command;
  }

  remove({ control }: CommandControl): void {
    const gone = this.#withKey(control);
    this.#keep({ controls: this.#choices.controls.filter((one) => one !== gone) });
  }

  setStep(stepBpm: number): void {
    this.#keep({ stepBpm });
  }

  /** The keys as they were at first, and no pads and switches. */
  reset(): void {
    this.#keep(FIRST_CONTROLS);
  }

  commandOfKey(key: string): Command | undefined {
    return this.#withKey({ kind: 'key', key })?.command;
  }

  /** What is printed on the first key that gives a command; not one that drums where the computer keyboard is played on. */
  keyTo(what: Command): string | undefined {
    const isDrummed = this.#dependencies.inputs.player === 'keyboard and pads';
    const toggles = what === 'start' || what === 'stop' ? this.of('start or stop') : [];
    const keys = [...toggles, ...this.of(what)].flatMap(({ control }) =>
      control.kind === 'key' ? [control.key] : [],
    );
    const key = keys.find((one) => !isDrummed || !isDrumKey(one));
    return key === undefined ? undefined : keyName(key);
  }

  /** A take begins. */
  follow(run: TakeRun): void {
    this.#run = run;
    const { choices, target } = this.#dependencies.session;
    this.#spots = [];
    this.#spotsOf = { phraseId: choices.phraseId, isExercise: target?.isExercise ?? false };
    this.#quickestBpm = choices.tempoBpm;
  }

  /** Does a command and shows that it was heard. @param atUs when it was given, performance time in microseconds */
  give(command: Command, atUs = Math.round(performance.now() * 1000)): void {
    const { session } = this.#dependencies;
    const words = performCommand(command, {
      session,
      stepBpm: this.stepBpm,
      markSpot: () => this.#markSpot(atUs),
    });
    this.#quickestBpm = Math.max(this.#quickestBpm, session.choices.tempoBpm);
    this.#shown = { words, number: ++this.#number };
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => (this.#shown = undefined), SHOWN_MS);
  }

  #markSpot(atUs: number): string | undefined {
    const run = this.#run;
    const spot = run && spotAt(run.plan, atUs - run.originUs);
    if (!spot) return undefined;
    run.markSpot(spot.atUs);
    this.#spots = [...this.#spots, spot];
    return spot.words;
  }

  /** Live path, but for the message with which a command is given. */
  #hear(message: KitMessage): void {
    if (this.learning.isOn) {
      this.learning.hear(message);
      return;
    }
    if (!this.#isOn) return;
    const recogniser = this.#recogniser;
    recogniser.hearsFeet = this.#run === undefined || message.timeUs >= this.#run.originUs;
    const code = recogniser.hear(message);
    if (code !== NO_COMMAND) this.#take(code);
  }

  /** A command was given: when everybody has heard its last message, its strikes are taken out of the playing. */
  #take(code: number): void {
    const { strikeCount, strikeUs, strikeStatus, strikeData1, strikeData2, strikeStroke } =
      this.#recogniser;
    const strikes = Array.from({ length: strikeCount }, (_, i) => ({
      timeUs: strikeUs[i]!,
      status: strikeStatus[i]!,
      data1: strikeData1[i]!,
      data2: strikeData2[i]!,
      stroke: strikeStroke[i]!,
    }));
    queueMicrotask(() => {
      const isIdle = this.#dependencies.session.status === 'idle';
      if (!isIdle) for (const strike of strikes) this.#run?.takeCommand(strike);
      if (code !== ECHO) this.give(COMMANDS[code]!, strikes[0]!.timeUs);
    });
  }

  /** A foot switch is no pad that the kit's map lacks. */
  #leaveOutSwitches(): void {
    const { monitor } = this.#dependencies.inputs;
    for (const { control } of this.#choices.controls)
      if (control.kind === 'switch' && control.sends === 'note') monitor.leaveOut(control.number);
  }

  #withKey(control: Control): CommandControl | undefined {
    const key = controlKey(control);
    return this.#choices.controls.find((one) => controlKey(one.control) === key);
  }

  #keep(some: Partial<ControlChoices>): void {
    this.#choices = { ...this.#choices, ...some };
    this.#dependencies.settings.write(SETTING, this.#choices);
  }
}

/** Keys that drum are told by their place: a letter stands there on most keyboards. */
function isDrumKey(key: string): boolean {
  return KEY_STROKES.has(key === ' ' ? 'Space' : `Key${key.toUpperCase()}`);
}
