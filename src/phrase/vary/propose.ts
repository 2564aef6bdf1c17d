import { LaidLayers } from '../laid-layers';
import { isHand, LIMBS, type Limb } from '../limb';
import type { Layer, Phrase } from '../phrase';
import { isFootVoice } from '../playability/places';
import { laidTimeline } from '../timeline';
import type { Voice } from '../voice';
import { layerFile } from '../write-phrase';
import { offers, type Variation } from './offer';
import { Subject } from './subject';
import type { Twist } from './vary';

/** What a proposed variation has to keep to. */
export interface Constraints {
  /** No other limb plays. */
  readonly limbs?: readonly Limb[];
  /** No other voice sounds. */
  readonly voices?: readonly Voice[];
  /** See playability. */
  readonly highestDifficulty?: number;
  /** From the original, both ends included. */
  readonly distance?: readonly [number, number];
  /** The tempo at which it has to be playable; the phrase's own unless given. */
  readonly bpm?: number;
}

/** Tries for each variation wanted. Chosen, not measured: where so many miss, the constraints leave little. */
const TRIES = 20;

/** Voices that a limb is moved to when the constraints name none: those of the usual kit. */
const USUAL_VOICES: readonly Voice[] = [
  'snare',
  'high tom',
  'mid tom',
  'floor tom',
  'hi-hat closed',
  'ride',
  'ride bell',
  'crash',
  'bass drum',
  'hi-hat pedal',
];

/**
 * Up to `count` different variations of one or two twists within the constraints; fewer when they are hard to find.
 * `share` gives numbers from 0 up to but not including 1: the same numbers, the same variations.
 */
export function proposeVariations(
  phrase: Phrase,
  count: number,
  constraints: Constraints,
  share: () => number,
): readonly Variation[] {
  const found: Variation[] = [];
  const original = new Subject({ laid: new LaidLayers(phrase), sentence: '' });
  if (original.voices.length === 0) return found;
  const known = new Set<string>();
  const offered = offers(original.laid, constraints.bpm);
  const keyOf = phraseKeys();
  for (let tries = count * TRIES; tries > 0 && found.length < count; tries--) {
    const drawn = draw(original, constraints, share);
    if (!drawn || drawn.isTried) continue;
    drawn.isTried = true;
    if (!keepsTo(drawn.laid, constraints)) continue;
    const key = keyOf(drawn.laid.phrase);
    if (known.has(key)) continue;
    known.add(key);
    const variation = offered(drawn);
    if (variation && isWithin(variation, constraints)) found.push(variation);
  }
  return found;
}

/** One twist or two. */
function draw(
  original: Subject,
  constraints: Constraints,
  share: () => number,
): Subject | undefined {
  const twist = drawTwist(original, constraints, share);
  const first = original.twist(twist);
  if (!first || share() < 0.5 || first.voices.length === 0) return first;
  const next = drawTwist(first, constraints, share);
  return next.kind === twist.kind ? first : first.twistAnew(next);
}

function drawTwist(
  { laid, voices: sounding }: Subject,
  { limbs, voices }: Constraints,
  share: () => number,
): Twist {
  const whole = (from: number, to: number) => from + Math.floor(share() * (to - from + 1));
  const one = <T>(list: readonly T[]): T => list[whole(0, list.length - 1)]!;
  const { cycle } = laid.phrase;
  const played = (): Voice => one(sounding);
  const voice = (isFoot: boolean): Voice => {
    const fitting = (voices ?? USUAL_VOICES).filter((each) => isFootVoice(each) === isFoot);
    return fitting.length > 0 ? one(fitting) : played();
  };
  switch (whole(1, 9)) {
    case 1:
      return { kind: 'rotate', by: whole(1, Math.max(1, cycle - 1)) };
    case 2:
      return { kind: 'displace', by: whole(1, Math.max(1, cycle - 1)) };
    case 3:
      return { kind: 'subdivision', subdivision: one([2, 3, 4, 5, 6, 8]) };
    case 4:
      return { kind: 'cycle', cycle: Math.max(1, cycle + one([-3, -2, -1, 1, 2, 3])) };
    case 5: {
      const from = played();
      return { kind: 'swap voices', voices: [from, voice(isFootVoice(from))] };
    }
    case 6:
      return { kind: 'mirror' };
    case 7:
      return laid.whole.grid.subdivision <= 4 && share() < 0.3
        ? { kind: 'double strokes' }
        : { kind: 'thin out', keep: whole(1, cycle), limb: one(limbs ?? LIMBS) };
    case 8:
      return { kind: 'thin out', keep: whole(Math.ceil(cycle / 2), cycle) };
    default: {
      const limb = one(limbs ?? LIMBS);
      const to = voice(!isHand(limb));
      return share() < 0.5
        ? { kind: 'orchestrate', limb, voice: to }
        : { kind: 'orchestrate', limb, voice: to, level: one(['accent', 'tap', 'ghost'] as const) };
    }
  }
}

function keepsTo(laid: LaidLayers, { limbs, voices }: Constraints): boolean {
  if (!limbs && !voices) return true;
  return laidTimeline(laid.whole).notes.every(
    ({ limb, voice }) => (limbs?.includes(limb) ?? true) && (voices?.includes(voice) ?? true),
  );
}

/** A function that tells phrases of one title, meter and tempo apart. */
function phraseKeys(): (phrase: Phrase) => string {
  const texts = new WeakMap<Layer, string>();
  const textOf = (layer: Layer): string => {
    let text = texts.get(layer);
    if (text === undefined) texts.set(layer, (text = JSON.stringify(layerFile(layer))));
    return text;
  };
  return ({ subdivision, groupingText, cycle, layers }) =>
    `${subdivision} ${groupingText} ${cycle} ${layers.map(textOf).join()}`;
}

function isWithin(offered: Variation, constraints: Constraints): boolean {
  const [least, most] = constraints.distance ?? [0, Infinity];
  return (
    offered.distance >= least &&
    offered.distance <= most &&
    offered.difficulty <= (constraints.highestDifficulty ?? Infinity)
  );
}
