import { TEMPO_BPM } from '../model/phrase-file';
import { distance } from './distance';
import { proposeVariations, type Constraints } from './propose';
import { draftOf, isSameDraft, type PhraseDraft } from '../model/phrase-draft';
import { chance } from '../../time/chance';
import { phraseOfDraft, type WeighedVariation } from './outcome';
import { playableUpTo } from './refusal';

/** Proposals wanted, as plain data that can go to another thread. */
export interface ProposalsJob {
  readonly ask: 'proposals';
  readonly original: PhraseDraft;
  /** What is varied, and what the limit on distance is measured from. */
  readonly base: PhraseDraft;
  readonly count: number;
  readonly constraints: Constraints & { readonly bpm: number };
  readonly seed: number;
}

export type Limit = 'limbs' | 'voices' | 'highestDifficulty' | 'distance' | 'bpm';

/** A limit without which there would be something. */
export interface Loosened {
  readonly limit: Limit;
  /** Variations found without it. */
  readonly found: number;
  /** For difficulty the least, for distance the least and most that were found; for the tempo the one tried. */
  readonly figures: readonly number[];
}

export interface Proposals {
  readonly found: readonly WeighedVariation[];
  /** Only when nothing was found; the limit that keeps back most comes first. */
  readonly loosened: readonly Loosened[];
}

/** How slow the tempo is tried when nothing is found. Chosen, not measured. */
const SLOWER = 0.6;

/** Variations from a seed, the same for the same job; where there are none, which single limit is to be loosened. */
export function proposalsOf(job: ProposalsJob): Proposals {
  const { count, constraints, seed } = job;
  const base = phraseOfDraft(job.base);
  const original = phraseOfDraft(job.original);
  const isAsOriginal = isSameDraft(job.base, job.original);
  const draw = (within: Constraints) => proposeVariations(base, count, within, chance(seed).share);
  const found = draw(constraints).map(({ phrase, sentence, distance: fromBase, difficulty }) => ({
    draft: draftOf(phrase),
    sentence,
    distance: isAsOriginal ? fromBase : distance(original, phrase),
    fromBase,
    difficulty,
    upToBpm: playableUpTo(phrase),
  }));
  if (found.length > 0) return { found, loosened: [] };
  const loosened = LIMITS.flatMap((limit): Loosened[] => {
    const within = without(constraints, limit);
    const others = within ? draw(within) : [];
    if (!within || others.length === 0) return [];
    const figures = {
      limbs: () => [],
      voices: () => [],
      highestDifficulty: () => [Math.min(...others.map((one) => one.difficulty))],
      distance: () => [
        Math.min(...others.map((one) => one.distance)),
        Math.max(...others.map((one) => one.distance)),
      ],
      bpm: () => [within.bpm!],
    }[limit]();
    return [{ limit, found: others.length, figures }];
  });
  return { found, loosened: loosened.sort((a, b) => b.found - a.found) };
}

const LIMITS: readonly Limit[] = ['distance', 'highestDifficulty', 'voices', 'limbs', 'bpm'];

/** The constraints less one; undefined when it is not among them or cannot be loosened. */
function without(constraints: ProposalsJob['constraints'], limit: Limit): Constraints | undefined {
  if (limit === 'bpm') {
    const bpm = Math.max(TEMPO_BPM.least, Math.round(constraints.bpm * SLOWER));
    return bpm < constraints.bpm ? { ...constraints, bpm } : undefined;
  }
  if (constraints[limit] === undefined) return undefined;
  const rest: { -readonly [K in keyof Constraints]: Constraints[K] } = { ...constraints };
  delete rest[limit];
  return rest;
}
