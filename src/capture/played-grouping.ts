import type { Limb } from '../phrase/model/limb';
import type { Voice } from '../phrase/model/voice';
import { bad, good, type Result } from '../time/result';
import { partialOfGaps, PARTIAL_US } from './pulse/partial-of-gaps';
import type { PlayedStroke } from './played-stroke';
import { findSticking, type LimblessNote } from '../phrase/playability/find-sticking';
import { struckTogether, type StruckTogether } from './struck-together';

export interface PlayedGrouping {
  /** Such as "R L - K R+K lR". */
  readonly text: string;
  /** How long one partial was, integer microseconds; 0 for a single one. */
  readonly partialUs: number;
  /** Whether the hands follow from what was struck; if not, they are a guess. */
  readonly sureOfHands: boolean;
}

/** The drum that each hand was on, so that the hands are known; another drum's hand is a guess. */
export interface HandsOn {
  readonly right: Voice;
  readonly left: Voice;
}

export interface GroupingError {
  readonly code: 'NOTHING' | 'TOO_LONG' | 'TOO_FAST' | 'THREE_HANDS' | 'UNEVEN';
  /** What is the matter and what to do. */
  readonly message: string;
}

/** A gap this far from whole partials could be either number of them. Chosen: a sixth short of the middle. */
const UNCLEAR = 1 / 3;
const MOST_PARTIALS = 64;
/** Below this the hands are called likely. As capture's own limit. */
const SURE_FROM = 0.6;

/**
 * A grouping played once, as text: the partial and the rests from the gaps, the feet by their voices, the
 * hands by the drum each was on or else by what they can reach, alternating where nothing speaks against it. Strokes within 60 ms
 * are one partial. Rests at the end cannot be heard. Errors: nothing or too much was played, quicker than
 * sixteenths at 125 a minute, with a third hand, or so unevenly that a rest cannot be told.
 *
 * @example playedGrouping([[0, 'floor tom'], [200000, 'snare'], [600000, 'bass drum']].map(([timeUs, voice]) => ({ timeUs, voice, velocity: 80 }))).value.text // => 'R L - K'
 */
export function playedGrouping(
  strokes: readonly PlayedStroke[],
  handsOn?: HandsOn,
): Result<PlayedGrouping, GroupingError> {
  const events = struckTogether(strokes.toSorted((a, b) => a.timeUs - b.timeUs));
  if (events.length === 0)
    return refused('NOTHING', 'No stroke was heard; play the grouping once.');
  const struck: StruckTogether[] = [];
  for (const [i, event] of events.entries()) {
    if (!event)
      return refused(
        'THREE_HANDS',
        `Stroke ${i + 1} needs a third hand: at most two hands strike at once, and a grace note is softer than its main note. Play it again.`,
      );
    struck.push(event);
  }
  const gaps = struck.slice(1).map(({ timeUs }, i) => timeUs - struck[i]!.timeUs);
  const placed = placesOf(gaps);
  if (!placed.ok) return placed;
  const { partials, partialUs } = placed.value;
  const length = partials.at(-1)! + 1;
  if (length > MOST_PARTIALS)
    return refused(
      'TOO_LONG',
      `That is ${length} partials, expected at most ${MOST_PARTIALS}; play the grouping once, without a long rest.`,
    );
  const { limbs, confidence } = limbsOf(struck, partials, partialUs, handsOn);
  const steps = Array.from({ length }, () => '-');
  struck.forEach((event, i) => (steps[partials[i]!] = stepText(event, limbs[i]!)));
  return good({
    text: steps.join(' '),
    partialUs: Math.round(partialUs),
    sureOfHands: confidence >= SURE_FROM,
  });
}

interface Places {
  /** Each event's partial, from 0. */
  readonly partials: readonly number[];
  readonly partialUs: number;
}

function placesOf(gaps: readonly number[]): Result<Places, GroupingError> {
  if (gaps.length === 0) return good({ partials: [0], partialUs: 0 });
  const found = partialOfGaps(gaps);
  if (!found || found.partialUs < PARTIAL_US.least)
    return refused('TOO_FAST', 'That was too quick to tell rests; play it slower and evenly.');
  const unclear = found.off.findIndex((off) => Math.abs(off) > UNCLEAR);
  if (unclear >= 0) {
    const least = Math.max(1, Math.floor(gaps[unclear]! / found.partialUs));
    return refused(
      'UNEVEN',
      `The gap after stroke ${unclear + 1} could be ${least} or ${least + 1} partials long; play it again, more evenly.`,
    );
  }
  const partials = [0];
  for (const count of found.counts) partials.push(partials.at(-1)! + count);
  return good({ partials, partialUs: found.partialUs });
}

/**
 * The hands of each event, by the sticking of the grouping played twice round: once round, an odd number of
 * alternating strokes would begin with the left.
 */
function limbsOf(
  struck: readonly StruckTogether[],
  partials: readonly number[],
  partialUs: number,
  handsOn: HandsOn | undefined,
): { limbs: readonly (readonly Limb[])[]; confidence: number } {
  const notes: LimblessNote[] = [];
  const eventOf: number[] = [];
  struck.forEach(({ hands }, i) =>
    hands.forEach((voice) => {
      notes.push({ partial: partials[i]!, voice });
      eventOf.push(i);
    }),
  );
  const once = partials.at(-1)! + 1;
  const again = notes.map(({ partial, voice }) => ({ partial: partial + once, voice }));
  const { limbs, confidence } = findSticking([...notes, ...again], 2 * once, partialUs);
  const byEvent: Limb[][] = struck.map(() => []);
  limbs.slice(0, notes.length).forEach((limb, k) => limb && byEvent[eventOf[k]!]!.push(limb));
  if (!handsOn) return { limbs: byEvent, confidence };
  const known = struck.map(({ hands }, i) =>
    hands.length === 1 ? [handOn(hands[0]!, handsOn) ?? byEvent[i]![0]!] : byEvent[i]!,
  );
  const isKnown = notes.every(({ voice }) => handOn(voice, handsOn) !== undefined);
  return { limbs: known, confidence: isKnown ? 1 : confidence };
}

const handOn = (voice: Voice, { right, left }: HandsOn): Limb | undefined =>
  voice === right ? 'R' : voice === left ? 'L' : undefined;

function stepText({ feet, graces }: StruckTogether, hands: readonly Limb[]): string {
  const inOrder = [...hands].sort((a, b) => b.localeCompare(a));
  const graceHand = hands[0] === 'R' ? 'l' : 'r';
  const written = inOrder.map((hand) => graceHand.repeat(graces) + hand);
  return [...written, ...[...feet].sort((a, b) => b.localeCompare(a))].join('+');
}

const refused = (code: GroupingError['code'], message: string) =>
  bad<GroupingError>({ code, message });
