import { bad, good, type Result } from '../../time/result';
import { layerStack } from '../layers/layer-stack';
import type { LayerStroke } from '../layers/layer-stroke';
import type { Limb } from '../model/limb';
import { swingText } from '../model/swing';
import type { NoteSound } from '../model/note';
import type { Phrase } from '../model/phrase';
import { MAX_PATTERN } from '../model/phrase-file';

/** How a grace note sounds. */
export type GraceSound = Pick<NoteSound, 'voice' | 'level'>;

/** A stroke with its grace notes, wherever it lies. */
export interface PatternStroke extends NoteSound {
  /** Hands of the grace notes, first to sound first, at most two. */
  readonly graces?: readonly Limb[];
  /**
   * One for each grace note; null keeps its place and rests. Without it they are on the main note's
   * voice at tap level.
   */
  readonly graceSounds?: readonly (GraceSound | null)[];
}

export interface PatternNote extends PatternStroke {
  /** From 0, counted from the start of the cycle. */
  readonly partial: number;
  readonly graces: readonly Limb[];
}

export interface PatternPickup extends PatternStroke {
  /** From 1, counted back from the first downbeat. */
  readonly partialsBefore: number;
}

/** What is played, without how it came about: everything that sounds until it sounds again. */
export interface TargetPattern {
  /** Such as "7/8". */
  readonly meter: string;
  /** Partials per beat, 1 to 12. */
  readonly subdivision: number;
  /** Partials after which the notes repeat: one cycle, or as many as it takes to meet the bar again. */
  readonly cyclePartials: number;
  readonly tempoBpm: number;
  /** Long to short, such as "2:1"; only in meters over 4. */
  readonly swing?: string;
  /** Partials from bar 1 beat 1 to the first cycle's start; earlier is negative; 0 unless given. */
  readonly displace?: number;
  readonly notes: readonly PatternNote[];
  readonly pickup: readonly PatternPickup[];
}

/**
 * The pattern of a phrase at a layer (1-based), or an error where its notes take too long to repeat.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example targetPattern(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R K', layers: [{ name: 'Sticking' }] }).value, 1).value.notes[1] // => { partial: 1, limb: 'K', voice: 'bass drum', level: 'tap', graces: [] }
 */
export function targetPattern(phrase: Phrase, layer: number): Result<TargetPattern, PatternError> {
  const stack = layerStack(phrase, layer);
  const { grid, period } = stack;
  const cyclePartials = period * phrase.cycle;
  if (cyclePartials > MAX_PATTERN)
    return bad({
      code: 'PATTERN_TOO_LONG',
      message: `The notes repeat after ${cyclePartials} partials, expected at most ${MAX_PATTERN}; take a phrase that meets the bar sooner.`,
    });
  const notes: PatternNote[] = [];
  for (let cycle = 1; cycle <= period; cycle++)
    for (const stroke of stack.strokes(cycle)) {
      const partial = (cycle - 1) * phrase.cycle + stroke.position - 1;
      if (!stroke.silent) notes.push({ partial, graces: [], ...patternStroke(stroke) });
    }
  const pickup = stack
    .strokes(0)
    .filter((stroke) => !stroke.silent)
    .map((stroke) => ({ partialsBefore: -stroke.position, ...patternStroke(stroke) }));
  return good({
    meter: phrase.meterText,
    subdivision: grid.subdivision,
    cyclePartials,
    tempoBpm: phrase.tempoBpm,
    ...(grid.swing && { swing: swingText(grid.swing) }),
    ...(grid.displace !== 0 && { displace: grid.displace }),
    notes,
    pickup,
  });
}

/** Why a pattern cannot be written out or taken apart, in one sentence. */
export interface PatternError {
  readonly code: 'PATTERN_TOO_LONG' | 'PATTERN_EMPTY' | 'PATTERN_WRONG' | 'PATTERN_BEYOND_LAYERS';
  readonly message: string;
}

/** A sounding stroke as a pattern has it: grace notes ahead of the first that sounds are left out. */
export function patternStroke({ limb, voice, level, graces }: LayerStroke): PatternStroke {
  const first = graces.findIndex((grace) => !grace.silent);
  const sounding = first < 0 ? [] : graces.slice(first);
  const isPlain = sounding.every((g) => !g.silent && g.voice === voice && g.level === 'tap');
  return {
    limb,
    voice,
    level,
    ...(sounding.length > 0 && { graces: sounding.map((grace) => grace.limb) }),
    ...(!isPlain && {
      graceSounds: sounding.map((g) => (g.silent ? null : { voice: g.voice, level: g.level })),
    }),
  };
}
