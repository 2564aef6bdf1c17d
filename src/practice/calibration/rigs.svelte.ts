import * as v from 'valibot';
import {
  forgetProfile,
  keepProfile,
  PlayedToClicksShape,
  profileFor,
  RigProfilesShape,
  type PlayedToClick,
  type Rig,
  type RigProfile,
} from '../../clock/latency/rig-profile';
import type { DeviceAndHabit } from '../../clock/latency/tap-estimate';
import { radioAdvice, rigWarning } from '../../clock/latency/rig-warnings';
import { outputLabel } from '../../clock/output-label';
import { createOutputWatch, type DeviceEvents } from '../../clock/output-watch';
import type { AudioEngine } from '../../sound/audio-engine';
import type { SettingsStore } from '../../store/settings-store';
import { isoNow } from '../iso-now';
import { Notices } from '../notices.svelte';
import type { Player } from '../../take/player';

const RigShape = v.object({ outputLabel: v.string(), sampleRate: v.number(), port: v.string() });
/** Until the sound has run once: what most outputs run at. */
const UNKNOWN_RIG: Rig = { outputLabel: '', sampleRate: 48_000, port: '' };

/** What a measurement says of the rig in use; the rest of a profile is known. */
export type OffsetMeasurement = Pick<
  RigProfile,
  'deviceOffsetMs' | 'method' | 'intervalMs' | 'spreadMs' | 'strokes'
>;

export interface RigDependencies {
  readonly engine: Pick<AudioEngine, 'context' | 'start'>;
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  /** Plain name of the MIDI port in use; empty while there is none. */
  readonly portName: () => string;
  /** Null where the browser has none. */
  readonly devices: (DeviceEvents & Pick<MediaDevices, 'enumerateDevices'>) | null;
  /** The date and time, ISO 8601. */
  readonly today?: () => string;
}

/** The rig in use and the offsets kept for all rigs. */
export class Rigs {
  readonly #dependencies: RigDependencies;
  readonly #watch;
  readonly #notices = new Notices();
  #profiles: readonly RigProfile[] = $state.raw([]);
  #played: readonly PlayedToClick[] = $state.raw([]);
  /** The rig as last looked at. */
  #seen: Rig = $state.raw(UNKNOWN_RIG);
  #latencyMs = $state(0);
  #label = '';
  #isKnown: boolean;

  constructor(dependencies: RigDependencies) {
    this.#dependencies = dependencies;
    const { settings, devices } = dependencies;
    this.#profiles = this.#kept();
    this.#played = settings.read('played-to-click', PlayedToClicksShape, []);
    const last = settings.read('rig', v.optional(RigShape), undefined);
    this.#isKnown = last !== undefined;
    this.#seen = last ?? UNKNOWN_RIG;
    this.#label = this.#seen.outputLabel;
    this.#watch = createOutputWatch(devices);
    devices?.addEventListener('devicechange', () => void this.refresh());
  }

  /** The rig in use: with the port of last time while none is there. */
  get rig(): Rig {
    return { ...this.#seen, port: this.#dependencies.portName() || this.#seen.port };
  }
  /** What is kept for the rig in use, if anything. */
  get profile(): RigProfile | undefined {
    return profileFor(this.#profiles, this.rig);
  }
  /** What playing to the click last told on the rig in use. */
  get playedToClick(): PlayedToClick | undefined {
    return profileFor(this.#played, this.rig);
  }
  /** What has just changed about the rig; each goes by itself. */
  get notices(): readonly string[] {
    return this.#notices.current;
  }
  /** Why the output is no good to practise with, if it looks wireless. */
  get radioAdvice(): string | undefined {
    return radioAdvice(this.#seen.outputLabel, this.#latencyMs);
  }

  /** Asks the browser which output is in use. */
  async refresh(): Promise<void> {
    this.#label = await outputLabel(this.#dependencies.devices);
    this.settle();
  }

  /** Takes over what is known of the rig now and tells what changed. A take that runs keeps its offset. */
  settle(): void {
    const before = this.#seen;
    const { context } = this.#dependencies.engine;
    const now: Rig = {
      outputLabel: this.#label,
      sampleRate: context?.sampleRate ?? before.sampleRate,
      port: this.#dependencies.portName() || before.port,
    };
    this.#latencyMs = (context?.outputLatency ?? 0) * 1000;
    if (before.outputLabel === '' && now.outputLabel !== '') this.#adopt(before, now);
    this.#seen = now;
    if (this.#isKnown && hasChanged(before, now)) {
      const sentence = rigWarning(this.#profiles, now, {
        ...before,
        outputLabel: isNamed(before, now) ? before.outputLabel : now.outputLabel,
      });
      if (sentence !== undefined) this.#notices.tell(sentence);
    }
    // Before the sound has run once, its rate is a guess.
    if (!context) return;
    this.#isKnown = true;
    this.#dependencies.settings.write('rig', now);
  }

  /** The offset for a take that begins, ms: only the kit's strokes take the way through the rig. */
  beginTake(player: Player): number {
    this.settle();
    return player === 'kit' ? (this.profile?.deviceOffsetMs ?? 0) : 0;
  }

  /** For the pump, while sound runs: tells when the output is another one or looks wireless. */
  look(): void {
    const { context } = this.#dependencies.engine;
    if (!context) return;
    for (const { sentence } of this.#watch.look(context)) this.#notices.tell(sentence);
  }

  /** Keeps an offset for the rig in use; call it from a click, since the rig is known once sound runs. */
  async keep(measured: OffsetMeasurement): Promise<void> {
    await this.#dependencies.engine.start();
    await this.refresh();
    const profile = {
      ...this.rig,
      ...measured,
      measuredAt: (this.#dependencies.today ?? isoNow)(),
    };
    this.#store(keepProfile(this.#kept(), profile));
    // On another day the browser may not tell the output's name.
    if (profile.outputLabel !== '')
      this.#store(keepProfile(this.#profiles, { ...profile, outputLabel: '' }));
  }

  /** Keeps what playing to the click has told on the rig in use. */
  remember({ deviceAndHabitMs, lowerMs, upperMs }: DeviceAndHabit): void {
    this.settle();
    const playedAt = (this.#dependencies.today ?? isoNow)();
    const played = { ...this.rig, deviceAndHabitMs, lowerMs, upperMs, playedAt };
    this.#played = keepProfile(this.#played, played);
    // On another day the browser may not tell the output's name.
    this.#played = keepProfile(this.#played, { ...played, outputLabel: '' });
    this.#dependencies.settings.write('played-to-click', this.#played);
  }

  forget(): void {
    const { rig } = this;
    this.#store(forgetProfile(forgetProfile(this.#kept(), rig), { ...rig, outputLabel: '' }));
  }

  /** The output is the one of before, whose name the browser now tells. */
  #adopt(before: Rig, now: Rig): void {
    const profile = profileFor(this.#profiles, before);
    if (profile && !profileFor(this.#profiles, now))
      this.#store(keepProfile(this.#profiles, { ...profile, outputLabel: now.outputLabel }));
  }

  /** Another tab may have measured in the meantime. */
  #kept(): readonly RigProfile[] {
    return this.#dependencies.settings.read('rigs', RigProfilesShape, []);
  }

  #store(profiles: readonly RigProfile[]): void {
    this.#profiles = profiles;
    this.#dependencies.settings.write('rigs', profiles);
  }
}

const isNamed = (before: Rig, now: Rig): boolean =>
  before.outputLabel !== '' && now.outputLabel !== '';

/** A name that comes or goes is the browser's doing and no other output. */
const hasChanged = (before: Rig, now: Rig): boolean =>
  (isNamed(before, now) && before.outputLabel !== now.outputLabel) ||
  before.sampleRate !== now.sampleRate ||
  (before.port !== '' && before.port !== now.port);
