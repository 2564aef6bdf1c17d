import { NARROW_RANGE } from '../faults/opening-watch';
import type { HiHatOpening, Kit } from '../kit';
import type { PadStrike } from './pad-strike';

/** One stroke on the hi-hat with the foot down, and one with the foot off. */
export interface HiHatStrikes {
  readonly closed: PadStrike;
  readonly open: PadStrike;
}

/** How a hi-hat tells open from closed. */
export interface HiHatPedal {
  readonly tells: 'notes' | 'controller' | 'nothing';
  /** What its controller does: moves with the foot, stays where it is, or never spoke. */
  readonly controller: 'moves' | 'stuck' | 'silent';
  /** Foot down is what the kit in use takes for open, by its notes or by its controller. */
  readonly isReversed: boolean;
  /** How the controller tells; undefined where it does not. */
  readonly opening: HiHatOpening | undefined;
  /** What the player should know, one sentence each. */
  readonly remarks: readonly string[];
}

/** MIDI's foot controller, which carries the hi-hat's opening (MIDI 1.0; that kits use it so is common practice). */
export const OPENING_CONTROLLER = 4;
/** Values of the controller nearer than this do not tell open from closed. Chosen, not measured. */
const OPENING_APART = 16;
/** A controller that goes no farther has not moved, it jitters. Chosen, not measured. */
const STILL = 2;

/**
 * What a hi-hat tells by one stroke closed and one open. Which end of the controller means open differs from kit to kit,
 * so it is learned: foot down is closed, whatever it sends.
 *
 * @param inUse what is read so far; without it nothing is called reversed.
 * @example hiHatPedal({ closed: { timeMs: 0, note: 8, velocity: 90, openingValue: 120 }, open: { timeMs: 900, note: 8, velocity: 90, openingValue: 4 } }).tells // => 'controller'
 */
export function hiHatPedal(strikes: HiHatStrikes, inUse?: Kit): HiHatPedal {
  const { closed, open } = strikes;
  const low = closedValue(strikes);
  const high = open.openingValue;
  const opening =
    low !== undefined && high !== undefined && Math.abs(high - low) >= OPENING_APART
      ? openingBetween(low, high)
      : undefined;
  const tells = closed.note !== open.note ? 'notes' : opening ? 'controller' : 'nothing';
  const controller = opening ? 'moves' : high === undefined ? 'silent' : 'stuck';
  const hasNotesReversed =
    tells === 'notes' &&
    inUse !== undefined &&
    voiceOf(inUse, closed.note) === 'hi-hat open' &&
    voiceOf(inUse, open.note) === 'hi-hat closed';
  const hasControllerReversed =
    opening !== undefined && inUse !== undefined && opening.highMeans !== inUse.opening.highMeans;
  const remarks: string[] = [];
  const both = `both send note ${closed.note}`;
  // Two strokes cannot tell a controller that is stuck from a foot that was not where it was asked for.
  const isStill = low === undefined || Math.abs(high! - low) <= STILL;
  const stood = isStill ? `stayed at ${high} in both strokes` : `went only from ${low} to ${high}`;
  if (hasNotesReversed)
    remarks.push(
      `The pedal is reversed: with the foot down the hi-hat sends its open note ${closed.note}, with the foot off its closed note ${open.note}. Here it is read the right way round from now on; turn it round on the sound module too, so that the kit sounds right.`,
    );
  if (hasControllerReversed)
    remarks.push(
      `The pedal's controller is reversed: with the foot down it is at ${low}, with the foot off at ${high}. It is read that way from now on.`,
    );
  if (opening && Math.abs(high! - low!) / 127 < NARROW_RANGE)
    remarks.push(
      `The pedal's controller went only from ${low} to ${high}, so open and closed lie close together. If your foot went all the way, calibrate the hi-hat on the sound module, with the pedal up.`,
    );
  if (controller === 'stuck')
    remarks.push(
      tells === 'notes'
        ? `The pedal's controller ${stood}. Open and closed are told by their notes all the same.`
        : `The pedal's controller ${stood}, and ${both}: every hi-hat stroke counts as closed. If your foot went all the way, calibrate the hi-hat on the sound module, with the pedal up; clean or reseat the controller's plug, then strike it again here.`,
    );
  if (controller === 'silent' && tells === 'nothing')
    remarks.push(
      `Open and closed ${both}, and no controller tells them apart: every hi-hat stroke counts as closed. Look whether the pedal's cable is in the socket for the hi-hat controller, and whether the sound module sends controller ${OPENING_CONTROLLER} over MIDI.`,
    );
  return {
    tells,
    controller,
    isReversed: hasNotesReversed || hasControllerReversed,
    opening,
    remarks,
  };
}

const voiceOf = ({ pads }: Kit, note: number) => pads.find((pad) => pad.note === note)?.voice;

/** Half-way between the two. */
function openingBetween(closed: number, open: number): HiHatOpening {
  const highMeans = open > closed ? 'open' : 'closed';
  const middle = (closed + open) / 2 / 127;
  return {
    controller: OPENING_CONTROLLER,
    highMeans,
    openFrom: highMeans === 'open' ? middle : 1 - middle,
  };
}

/**
 * Where the controller stood with the foot down. It says nothing while the foot rests, so a pedal held down since before
 * the page listened is known by where it came from as the foot went up: what it passed farthest from where it ended.
 * Where it told its end alone, it has come from the other one.
 */
function closedValue({ closed, open }: HiHatStrikes): number | undefined {
  if (closed.openingValue !== undefined) return closed.openingValue;
  const end = open.openingValue;
  const { openingBefore } = open;
  if (end === undefined || !openingBefore) return undefined;
  const [low, high] = openingBefore;
  const farthest = end - low > high - end ? low : high;
  if (Math.abs(farthest - end) >= OPENING_APART) return farthest;
  return end < OPENING_APART ? 127 : end > 127 - OPENING_APART ? 0 : farthest;
}
