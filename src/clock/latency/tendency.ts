import type { DeviceAndHabit } from './tap-estimate';
import { signedText } from '../../words/words';

/** The device part of an offset, ms, and how far it may be off to each side, 95 %. */
export interface DevicePart {
  readonly deviceOffsetMs: number;
  readonly halfWidthMs: number;
}

/** The player's own tendency: early is negative. Never part of the correction, since playing ahead or behind is the player's to choose. */
export interface Tendency {
  readonly tendencyMs: number;
  /** 95 %: the half-widths of both measurements, squared, added and rooted. */
  readonly lowerMs: number;
  readonly upperMs: number;
  /** What it amounts to, in words. */
  readonly sentence: string;
}

/**
 * What is left of playing to the click when the device's own part is taken off. The device part must
 * come from another measurement: taken from the same strokes the answer would be nought by arithmetic.
 *
 * @example tendency({ deviceAndHabitMs: 2, lowerMs: -1, upperMs: 5 }, { deviceOffsetMs: 14, halfWidthMs: 4 }).lowerMs // => -17
 */
export function tendency(
  played: Pick<DeviceAndHabit, 'deviceAndHabitMs' | 'lowerMs' | 'upperMs'>,
  device: DevicePart,
): Tendency {
  const tendencyMs = played.deviceAndHabitMs - device.deviceOffsetMs;
  const below = Math.hypot(played.deviceAndHabitMs - played.lowerMs, device.halfWidthMs);
  const above = Math.hypot(played.upperMs - played.deviceAndHabitMs, device.halfWidthMs);
  const lowerMs = tendencyMs - below;
  const upperMs = tendencyMs + above;
  return { tendencyMs, lowerMs, upperMs, sentence: inWords(tendencyMs, lowerMs, upperMs) };
}

function inWords(tendencyMs: number, lowerMs: number, upperMs: number): string {
  const range = `${signedText(lowerMs, 0)} to ${signedText(upperMs, 0)} ms`;
  if (lowerMs <= 0 && upperMs >= 0)
    return `No tendency can be told from the click: ${signedText(tendencyMs, 0)} ms, give or take (${range}).`;
  const side = tendencyMs < 0 ? 'ahead of' : 'behind';
  return `You tend to play ${Math.abs(tendencyMs).toFixed(0)} ms ${side} the click (${range}).`;
}

export interface PublishedSize {
  readonly sentence: string;
  /** A paper whose abstract says so. */
  readonly source: string;
}

/** What is known about playing ahead of a click, to set one's own figure beside; checked against the papers' abstracts. */
export const PUBLISHED_SIZES: readonly PublishedSize[] = [
  {
    sentence: 'People who tap along with a click tap some tens of milliseconds before it.',
    source: 'Aschersleben 2002, Brain and Cognition 48:66-79',
  },
  {
    sentence:
      'Fifteen professional drummers playing a basic pattern to a click at 60 and 120 bpm had the hi-hat hand within about 2 ms of it and the snare hand and the foot about 10 ms early; at 200 bpm the hi-hat hand was about 10 ms late.',
    source: 'Fujii et al. 2011, Music Perception 28:491-503',
  },
];
