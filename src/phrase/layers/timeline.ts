import { gcd, lcm, remainder } from '../../time/whole';
import type { LayeredPhrase, CycleNote } from './cycle-pattern';
import { layerStack } from './layer-stack';
import { isHand, LIMBS, type Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { swings } from '../model/swing';

/** Cycles laid side by side at most. Chosen, not measured: sixteen say what a body has to do. */
export const MOST_CYCLES = 16;

/** A note where it sounds, in beats from bar 1 beat 1 as a plain number: near enough for rates and distances. */
export interface TimelineNote extends CycleNote {
  readonly beat: number;
  /** 1-based; 0 for the pickup. */
  readonly cycle: number;
}

/** A layer laid out in time. */
export interface Timeline {
  /** In the order they are played, the pickup first. */
  readonly notes: readonly TimelineNote[];
  /** Cycles after which it repeats, at most 16 and no more than are in reach. */
  readonly period: number;
  readonly cycleBeats: number;
}

/** Cycles after which a layer repeats, its swing against the bar included, at most 16 and no more than are in reach. */
export function repeatCycles({ phrase, grid, period, cyclesInReach }: LayeredPhrase): number {
  const isSwung = grid.swing !== undefined && swings(phrase.meter, grid.subdivision);
  const cycles = isSwung
    ? lcm(Math.min(period, 2 ** 20), grid.barPartials / gcd(phrase.cycle, grid.barPartials))
    : period;
  return Math.min(cycles, MOST_CYCLES, cyclesInReach);
}

/**
 * A layer (1-based) in time: the pickup, `cycles` cycles (until it repeats unless told otherwise), and as
 * many more as begin within `extraBeats` after them.
 *
 * @throws RangeError when the phrase has no such layer.
 */
export const timeline = (
  phrase: Phrase,
  layer: number,
  extraBeats = 0,
  cycles?: number,
): Timeline => stackTimeline(layerStack(phrase, layer), extraBeats, cycles);

/** The same of a layer that has been laid on. */
export function stackTimeline(
  laid: LayeredPhrase,
  extraBeats = 0,
  cycles = repeatCycles(laid),
): Timeline {
  const { phrase } = laid;
  const { subdivision, displace, swing } = laid.grid;
  const cycleBeats = phrase.cycle / subdivision;
  const long = swing !== undefined && swings(phrase.meter, subdivision) ? swing.valueOf() : 1;
  const notes: TimelineNote[] = [];
  const all = cycles + Math.ceil(extraBeats / cycleBeats);
  for (let cycle = 0; cycle <= all; cycle++) {
    const start = cycle === 0 ? 0 : (cycle - 1) * phrase.cycle + displace;
    for (const note of laid.pattern(cycle)) {
      const partial = start + note.partial;
      if (cycle > 0 && partial < 0) continue;
      const { position, graceStep, graceOf, limb, voice, level, layers } = note;
      const beat =
        long === 1 ? partial / subdivision : swungBeat(partial, subdivision, long / (1 + long));
      notes.push({
        partial,
        position,
        graceStep,
        graceOf,
        limb,
        voice,
        level,
        layers,
        beat,
        cycle,
      });
    }
  }
  return { notes, period: cycles, cycleBeats };
}

/** Where a partial sounds, in beats, when the first half of a beat takes `share` of it. */
function swungBeat(partial: number, subdivision: number, share: number): number {
  const inBeat = remainder(partial, subdivision) / subdivision;
  const swung = inBeat * 2 <= 1 ? inBeat * 2 * share : share + (inBeat * 2 - 1) * (1 - share);
  return Math.floor(partial / subdivision) + swung;
}

/** Each limb's strokes in time, by the order of LIMBS. Grace notes ahead of one stroke are one motion of the hand, on its onset. */
export function strokesByLimb(
  notes: readonly TimelineNote[],
): readonly (readonly TimelineNote[])[] {
  const found: Readonly<Record<Limb, TimelineNote[]>> = { R: [], L: [], K: [], F: [] };
  for (const note of notes) {
    const strokes = found[note.limb];
    const isOwn = strokes.length === 0 || strokes.at(-1)!.beat !== note.beat;
    if (isOwn || !isHand(note.limb)) strokes.push(note);
  }
  return LIMBS.map((limb) => found[limb]);
}
