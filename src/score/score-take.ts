import type { Level } from '../phrase/model/level';
import type { Limb } from '../phrase/model/limb';
import type { Voice } from '../phrase/model/voice';
import { dynamicsOf, type DynamicsReport } from './dynamics';
import { figuresOf, type Figures } from './figures';
import {
  byLayer,
  byLevel,
  byLimb,
  byPosition,
  byVoice,
  extrasByVoice,
  wrongVoices,
  type Grouped,
  type WrongVoicePair,
} from './groups';
import type { Judgement } from './judge';

/** Everything told about a take in numbers. */
export interface TakeScore {
  readonly overall: Figures;
  readonly byLayer: Grouped<number>;
  readonly byVoice: Grouped<Voice>;
  readonly byLimb: Grouped<Limb>;
  readonly byLevel: Grouped<Level>;
  readonly byPosition: Grouped<number>;
  readonly wrongVoices: readonly WrongVoicePair[];
  readonly extras: number;
  readonly extrasByVoice: ReadonlyMap<Voice, number>;
  readonly dynamics: DynamicsReport;
}

/** @example scoreTake({ notes: [], extras: [] }).overall.asWritten // => undefined */
export function scoreTake({ notes, extras }: Judgement): TakeScore {
  return {
    overall: figuresOf(notes),
    byLayer: byLayer(notes),
    byVoice: byVoice(notes),
    byLimb: byLimb(notes),
    byLevel: byLevel(notes),
    byPosition: byPosition(notes),
    wrongVoices: wrongVoices(notes),
    extras: extras.length,
    extrasByVoice: extrasByVoice(extras),
    dynamics: dynamicsOf(notes),
  };
}
