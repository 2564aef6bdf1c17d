import type { ClockMap } from '../clock/audio-clock-map';
import type { Phrase } from '../phrase/model/phrase';
import type { AudioEngine } from '../sound/audio-engine';
import type { ClickChoice } from '../sound/click-pattern';
import type { SoundEvent } from '../sound/sound-event';
import type { PlayedStroke } from '../capture/played-stroke';
import { beats } from '../time/beats';
import { plainTimeline, type LiveTimeline } from '../live/live-timeline';
import { between } from '../time/first-from';
import { soundsBetween } from './sounds-between';
import { LEAD_IN_MS, Transport, type TransportDependencies } from './transport';
import { StartAttempts } from './start-attempts';

export interface AuditionDependencies extends TransportDependencies {
  readonly engine: AudioEngine;
  readonly clockMap: ClockMap;
}

/** A phrase that is to be heard. */
export interface AuditionPhrase {
  readonly phrase: Phrase;
  /** 1-based; the last unless given. */
  readonly layer?: number;
  /** Beats per minute; the phrase's own unless given. */
  readonly bpm?: number;
  /** Without the click unless given. */
  readonly click?: boolean;
  /** 1-based; from the beginning, pickup included, unless given. */
  readonly fromBar?: number;
}

/** Strokes as they were played, from the first on, once; in time order. */
export interface AuditionStrokes {
  readonly strokes: readonly PlayedStroke[];
}

/** What sounds, laid out as far as is asked for. */
interface Programme {
  /** Where it begins and ends, integer microseconds from bar 1 beat 1. */
  readonly startUs: number;
  readonly endUs: number;
  extendTo(untilUs: number): void;
  /** In time order, from `fromUs` up to but not including `toUs`. */
  sounds(fromUs: number, toUs: number): readonly SoundEvent[];
}

const AHEAD_US = 8_000_000;
/** What is heard once is over so long after its last stroke: cymbals ring. Chosen, not measured. */
const RINGS_US = 1_500_000;
const NO_CLICK: ClickChoice = { follows: 'meter', beats: 'none' };
const BEATS: ClickChoice = { follows: 'meter', beats: 'all' };

/**
 * Lets a phrase be heard without being practised, over and over until it is stopped, or strokes once. One thing is heard at a time,
 * under a key of its caller's; what is heard may be changed while it sounds.
 */
export class Audition {
  readonly #dependencies: AuditionDependencies;
  #key: string | undefined = $state();
  #problem: string | undefined = $state();
  #wanted: AuditionPhrase | AuditionStrokes | undefined = $state.raw();
  #programme: Programme | undefined;
  #transport: Transport | undefined;
  readonly #attempts = new StartAttempts('The sound', (sentence) => {
    this.stop();
    this.#problem = sentence;
  });

  constructor(dependencies: AuditionDependencies) {
    this.#dependencies = dependencies;
  }

  /** The key of what is heard now; undefined in silence. */
  get key(): string | undefined {
    return this.#key;
  }
  /** The phrase that is heard; undefined in silence, and while strokes are. */
  get heard(): AuditionPhrase | undefined {
    return this.#wanted && 'phrase' in this.#wanted ? this.#wanted : undefined;
  }
  /** Why there is no sound, if so. */
  get problem(): string | undefined {
    return this.#problem;
  }

  /** Integer microseconds from bar 1 beat 1 of what is heard; undefined in silence. */
  nowUs(): number | undefined {
    return this.#key === undefined ? undefined : this.#transport?.nowUs();
  }

  /** Starts from the beginning, its pickup included, or from a bar. Call it from a gesture, since browsers keep quiet without one. */
  async play(key: string, wanted: AuditionPhrase | AuditionStrokes): Promise<void> {
    this.stop();
    this.#key = key;
    this.#wanted = wanted;
    await this.#attempts.begin((isCurrent) => this.#start(isCurrent));
  }

  async #start(isCurrent: () => boolean): Promise<void> {
    const { name, sentence } = await this.#dependencies.engine.start();
    if (!isCurrent()) return;
    this.#problem = name === 'running' ? undefined : sentence;
    if (name !== 'running') {
      this.#key = undefined;
      return;
    }
    const { startUs } = this.#layOut(this.#wanted!, 0);
    this.#transport = new Transport(this.#dependencies, {
      leadInMs: LEAD_IN_MS.audition,
      fromUs: startUs,
      sounds: (fromUs, toUs) => this.#programme!.sounds(fromUs, toUs),
      onTick: () => this.#tick(),
    });
    this.#transport.start();
  }

  /** What is heard becomes something else without a break, if it is heard under this key. */
  change(key: string, wanted: AuditionPhrase | AuditionStrokes): void {
    if (this.#key !== key) return;
    this.#wanted = wanted;
    if (!this.#transport) return;
    this.#layOut(wanted, Math.max(0, this.#transport.nowUs()));
    this.#transport.renewSounds();
  }

  stop(): void {
    this.#attempts.giveUp();
    this.#transport?.stop();
    this.#transport = this.#programme = this.#wanted = undefined;
    this.#key = undefined;
  }

  #layOut(wanted: AuditionPhrase | AuditionStrokes, fromUs: number): Programme {
    const { engine } = this.#dependencies;
    this.#programme =
      'strokes' in wanted
        ? strokesProgramme(wanted, engine)
        : phraseProgramme(wanted, fromUs + AHEAD_US, engine);
    return this.#programme;
  }

  #tick(): void {
    const nowUs = this.#transport!.nowUs();
    if (nowUs > this.#programme!.endUs) this.stop();
    else this.#programme!.extendTo(Math.max(0, nowUs) + AHEAD_US);
  }
}

/** Where a phrase begins to be heard, integer microseconds from bar 1 beat 1. */
function startOf(
  { notes, plan }: Pick<LiveTimeline, 'notes' | 'plan'>,
  { phrase, fromBar }: Pick<AuditionPhrase, 'phrase' | 'fromBar'>,
): number {
  if (fromBar === undefined) return Math.min(0, notes[0]?.timeUs ?? 0);
  return plan.tempo.usAt(beats((fromBar - 1) * phrase.meter.beatsPerBar));
}

function phraseProgramme(
  wanted: AuditionPhrase,
  untilUs: number,
  engine: Pick<AudioEngine, 'prepare'>,
): Programme {
  const { phrase, layer = phrase.layers.length, bpm = phrase.tempoBpm, click } = wanted;
  const timeline = plainTimeline(phrase, layer, bpm);
  timeline.extendTo(untilUs);
  engine.prepare(timeline.notes.map(({ note }) => note.voice));
  const clicks = click ? BEATS : NO_CLICK;
  return {
    startUs: startOf(timeline, wanted),
    endUs: Infinity,
    extendTo: (until) => timeline.extendTo(until),
    sounds: (fromUs, toUs) => soundsBetween(timeline, clicks, 'along', fromUs, toUs),
  };
}

function strokesProgramme(
  { strokes }: AuditionStrokes,
  engine: Pick<AudioEngine, 'prepare'>,
): Programme {
  const startUs = strokes[0]?.timeUs ?? 0;
  engine.prepare(strokes.map(({ voice }) => voice));
  return {
    startUs,
    endUs: (strokes.at(-1)?.timeUs ?? startUs) + RINGS_US,
    extendTo: () => undefined,
    sounds: (fromUs, toUs) =>
      between(strokes, ({ timeUs }) => timeUs, fromUs, toUs).map(
        ({ timeUs, voice, velocity }): SoundEvent => ({ kind: 'voice', timeUs, voice, velocity }),
      ),
  };
}
