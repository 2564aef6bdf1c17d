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

/** One rig's offset as it is kept; the shape for the settings store. */
export const RigProfileShape = v.strictObject({
  outputLabel: name,
  sampleRate: v.pipe(v.number(), v.finite(), v.minValue(1), v.maxValue(1_000_000)),
  port: name,
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

/**
 * Whether two rigs are the same one.
 *
 * @example sameRig({ outputLabel: 'Desk', sampleRate: 48000, port: 'Kit' }, { outputLabel: 'Desk', sampleRate: 44100, port: 'Kit' }) // => false
 */
export const sameRig = (a: Rig, b: Rig): boolean =>
  a.outputLabel === b.outputLabel && a.sampleRate === b.sampleRate && a.port === b.port;

/** The profile of this very rig; no other one stands in for it. @example profileFor([], { outputLabel: '', sampleRate: 48000, port: '' }) // => undefined */
export const profileFor = (profiles: readonly RigProfile[], rig: Rig): RigProfile | undefined =>
  profiles.find((profile) => sameRig(profile, rig));

/** With this profile in place of the rig's earlier one, newest first. @example keepProfile([], { outputLabel: '', sampleRate: 48000, port: '', deviceOffsetMs: 12, method: 'by hand', measuredAt: '2026-03-01T10:00:00Z' }).length // => 1 */
export const keepProfile = (
  profiles: readonly RigProfile[],
  profile: RigProfile,
): readonly RigProfile[] => [profile, ...forgetProfile(profiles, profile)];

/** Without the rig's profile. @example forgetProfile([], { outputLabel: '', sampleRate: 48000, port: '' }) // => [] */
export const forgetProfile = (profiles: readonly RigProfile[], rig: Rig): readonly RigProfile[] =>
  profiles.filter((profile) => !sameRig(profile, rig));

/**
 * Two lists in one, as when settings are brought over from another browser: of two profiles for one
 * rig the one measured later stays. Newest first.
 *
 * @example mergeProfiles([], []) // => []
 */
export function mergeProfiles(
  mine: readonly RigProfile[],
  theirs: readonly RigProfile[],
): readonly RigProfile[] {
  const newestFirst = [...mine, ...theirs].sort(
    (a, b) => Date.parse(b.measuredAt) - Date.parse(a.measuredAt),
  );
  return newestFirst.filter(
    (profile, i) => newestFirst.findIndex((other) => sameRig(other, profile)) === i,
  );
}
