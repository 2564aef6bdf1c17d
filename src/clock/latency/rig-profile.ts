import * as v from 'valibot';

/** How the device part was found. What was taken from playing holds the player's habit too. */
export const OFFSET_METHODS = ['microphone', 'by hand', 'from playing'] as const;
export type OffsetMethod = (typeof OFFSET_METHODS)[number];

const name = v.pipe(v.string(), v.maxLength(200));
const offset = v.pipe(v.number(), v.finite(), v.minValue(-1000), v.maxValue(1000));
const length = v.pipe(v.number(), v.finite(), v.minValue(0), v.maxValue(1000));
const instant = v.pipe(v.string(), v.isoTimestamp());

/** A set-up whose offset is one constant: change any of these and it is another. */
export interface Rig {
  /** Label of the sound output as the browser tells it; empty where it tells none. */
  readonly outputLabel: string;
  /** Of the audio context, hertz. */
  readonly sampleRate: number;
  /** The MIDI port's plain name, without the numbers that change when it is plugged in again. */
  readonly port: string;
}

const RIG = {
  outputLabel: name,
  sampleRate: v.pipe(v.number(), v.finite(), v.minValue(1), v.maxValue(1_000_000)),
  port: name,
};

/** One rig's offset as it is kept; the shape for the settings store. */
export const RigProfileShape = v.strictObject({
  ...RIG,
  /** Subtracted from every offset, ms: how much later than due a stroke is stamped that falls on the click as heard. */
  deviceOffsetMs: offset,
  method: v.picklist(OFFSET_METHODS),
  /** 95 %, lower and upper, ms; absent when set by hand. */
  intervalMs: v.exactOptional(
    v.pipe(
      v.tuple([offset, offset]),
      v.check(([lower, upper]) => lower <= upper),
    ),
  ),
  /** Standard deviation of single strokes in the measurement, ms. */
  spreadMs: v.exactOptional(length),
  strokes: v.exactOptional(v.pipe(v.number(), v.integer(), v.minValue(1))),
  measuredAt: instant,
});

export type RigProfile = Readonly<v.InferOutput<typeof RigProfileShape>>;

/** All of them, for the settings store. */
export const RigProfilesShape = v.pipe(v.array(RigProfileShape), v.maxLength(100));

/** The last playing to the click on a rig that told something, as it is kept. */
export const PlayedToClickShape = v.strictObject({
  ...RIG,
  /** Device and habit together, and its 95 % interval, ms, early negative. */
  deviceAndHabitMs: offset,
  lowerMs: offset,
  upperMs: offset,
  playedAt: instant,
});

export type PlayedToClick = Readonly<v.InferOutput<typeof PlayedToClickShape>>;

export const PlayedToClicksShape = v.pipe(v.array(PlayedToClickShape), v.maxLength(100));

/**
 * Whether two rigs are the same one.
 *
 * @example sameRig({ outputLabel: 'Desk', sampleRate: 48000, port: 'Kit' }, { outputLabel: 'Desk', sampleRate: 44100, port: 'Kit' }) // => false
 */
export const sameRig = (a: Rig, b: Rig): boolean =>
  a.outputLabel === b.outputLabel && a.sampleRate === b.sampleRate && a.port === b.port;

/** What is kept for this very rig; no other one stands in for it. @example profileFor([], { outputLabel: '', sampleRate: 48000, port: '' }) // => undefined */
export const profileFor = <T extends Rig>(profiles: readonly T[], rig: Rig): T | undefined =>
  profiles.find((profile) => sameRig(profile, rig));

/** With this one in place of the rig's earlier one, newest first. @example keepProfile([], { outputLabel: '', sampleRate: 48000, port: '', deviceOffsetMs: 12, method: 'by hand', measuredAt: '2026-03-01T10:00:00Z' }).length // => 1 */
export const keepProfile = <T extends Rig>(profiles: readonly T[], profile: T): readonly T[] => [
  profile,
  ...forgetProfile(profiles, profile),
];

/** Without the rig's. @example forgetProfile([], { outputLabel: '', sampleRate: 48000, port: '' }) // => [] */
export const forgetProfile = <T extends Rig>(profiles: readonly T[], rig: Rig): readonly T[] =>
  profiles.filter((profile) => !sameRig(profile, rig));
