import { remainder } from '../../time/whole';
import type { LayerStack } from '../layers/layer-stack';
import { MOST_CYCLES } from '../layers/timeline';
import { countOf } from '../../words/words';
import type { Level } from '../model/level';
import { limbName, type Limb } from '../model/limb';
import type { Change } from '../model/phrase';
import { VOICES, type Voice } from '../model/voice';
import { variationOver, type LayeredVariation } from './layered-variation';

/**
 * Everything but the pickup moved `by` partials against the bar (negative: earlier), as one more layer. A whole
 * cycle or more is taken off, so that the cycle's start stays within one cycle of bar 1.
 */
export function displace(stack: LayerStack, by: number): LayeredVariation | undefined {
  const { phrase, grid } = stack;
  const before = grid.displace;
  const total = before + by;
  const after = Math.abs(total) < phrase.cycle ? total : remainder(total, phrase.cycle);
  const sentence = `The phrase lies ${countOf(Math.abs(by), 'partial')} ${by < 0 ? 'earlier' : 'later'} against the bar.`;
  const changes = [{ kind: 'displace', displace: after - before } as const];
  return variationOver(stack, { name: 'Displaced', changes }, sentence);
}

/**
 * The same strokes on another number of partials to the beat, as one more layer: a cycle of three lies one way
 * over triplets and another over eighths. Undefined when the number is the same.
 */
export function changeSubdivision(
  stack: LayerStack,
  subdivision: number,
): LayeredVariation | undefined {
  const before = stack.grid.subdivision;
  if (subdivision === before) return undefined;
  return variationOver(
    stack,
    { name: 'Subdivision', changes: [{ kind: 'subdivision', subdivision }] },
    `Each beat has ${subdivision} partials in place of ${before}, with the same strokes on them.`,
  );
}

/** A limb's strokes, or only those at one level, moved to a voice, as one more layer. */
export function orchestrate(
  stack: LayerStack,
  limb: Limb,
  voice: Voice,
  level?: Level,
): LayeredVariation | undefined {
  const which = level === undefined ? 'strokes' : `${level}s`;
  return variationOver(
    stack,
    {
      name: 'Orchestrated',
      changes: [{ kind: 'set', where: { limb, ...(level && { level }) }, set: { voice } }],
    },
    `The ${which} of the ${limbName(limb)} are on the ${voice}.`,
  );
}

/** Two voices exchanged wherever either is played, as one more layer. */
export function swapVoices(
  stack: LayerStack,
  one: Voice,
  other: Voice,
): LayeredVariation | undefined {
  const used = usedVoices(stack);
  const aside = VOICES.find((voice) => !used.has(voice) && voice !== one && voice !== other);
  if (aside === undefined) return undefined;
  const revoice = (from: Voice, to: Voice): Change => ({
    kind: 'set',
    where: { voice: from },
    set: { voice: to },
  });
  if (used.has(one) && used.has(other))
    return variationOver(
      stack,
      {
        name: 'Voices swapped',
        changes: [revoice(one, aside), revoice(other, one), revoice(aside, other)],
      },
      `What was on the ${one} is on the ${other}, and the other way round.`,
    );
  const [from, to] = used.has(one) ? [one, other] : [other, one];
  return variationOver(
    stack,
    { name: 'Voices swapped', changes: [revoice(from, to)] },
    `What was on the ${from} is on the ${to}.`,
  );
}

/** The voices of main notes in the cycles until they repeat, at most 16 and those in reach, and in the pickup. */
function usedVoices(stack: LayerStack): ReadonlySet<Voice> {
  const used = new Set<Voice>();
  for (let cycle = 0; cycle <= Math.min(stack.period, stack.cyclesInReach, MOST_CYCLES); cycle++)
    for (const { graceStep, voice } of stack.pattern(cycle)) if (graceStep === 0) used.add(voice);
  return used;
}

/**
 * Only `keep` of the cycle's onsets (of one limb's, when it is named) are left, spread as evenly as they go, as
 * Euclid's algorithm spreads them (Toussaint, BRIDGES 2005); the others rest. One more layer.
 */
export function thinOut(
  stack: LayerStack,
  keep: number,
  limb?: Limb,
): LayeredVariation | undefined {
  const positions = new Set<number>();
  for (const note of stack.pattern(1))
    if (note.graceStep === 0 && (limb === undefined || note.limb === limb))
      positions.add(note.position);
  const onsets = [...positions];
  if (!Number.isInteger(keep) || keep < 1 || keep >= onsets.length) return undefined;
  const kept = new Set(
    Array.from({ length: keep }, (_, i) => Math.floor((i * onsets.length) / keep)),
  );
  const rest = onsets.filter((_, i) => !kept.has(i));
  const whose = limb === undefined ? '' : ` of the ${limbName(limb)}`;
  return variationOver(
    stack,
    {
      name: 'Thinned out',
      changes: [
        { kind: 'set', where: { ...(limb && { limb }), positions: rest }, set: { silent: true } },
      ],
    },
    `Strokes stay on ${keep} of ${countOf(onsets.length, 'place')}${whose}, spread evenly.`,
  );
}
