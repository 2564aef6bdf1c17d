import { decompose } from '../phrase/decompose/decompose';
import type { PatternError } from '../phrase/decompose/target-pattern';
import type { Phrase } from '../phrase/model/phrase';
import { tempoRange } from '../phrase/model/tempo-range';
import { parseMeter } from '../time/meter';
import { bad, good, type Result } from '../time/result';
import { remainder } from '../time/whole';
import { countOf } from '../words/words';
import type { Corrections } from './corrections';
import { comesRound, LONGEST } from './cycle-length';
import { placeInBars, tempoShown, type CaptureInput } from './place-in-bars';
import { transcribe, type Transcription } from './transcribe';

/** What was played, as a phrase split into layers. */
export interface CaptureReport extends Transcription {
  readonly phrase: Phrase;
  /** Partial of the bar, from 0, on which the first stroke falls. */
  readonly firstOn: number;
  /** The tempo that the strokes are in step with, where they are not in step with the click. */
  readonly inStepBpm: number | undefined;
}

/** Why nothing could be written down. */
export interface CaptureRefusal {
  readonly code:
    'TOO_FEW_STROKES' | 'NO_PULSE' | 'NO_CYCLE' | 'METER' | 'TEMPO' | PatternError['code'];
  /** What is in the way. */
  readonly place: 'strokes' | 'tempo' | 'meter' | 'cycle';
  /** What is the matter and what to do. */
  readonly message: string;
}

/** Fewer strokes than this are no phrase played several times. Chosen, not measured. */
const LEAST_STROKES = 8;
const UNTITLED = 'Captured';

/**
 * What was played, as a phrase split into layers; what the player says of it counts for more than what is heard.
 * It may be asked again and again with other corrections. The tempo of free playing is followed as it drifts; a
 * tempo that is simply related to it, or nearly the same, only counts its beats differently. Refused: fewer than eight
 * strokes, no pulse, nothing that comes again, a tempo or meter that no phrase has.
 *
 * @example capture({ meter: '4/4', clickBpm: 90, bar1At: 'count-in end', strokes: Array.from({ length: 24 }, (_, i) => ({ timeUs: Math.round(i * 166667), voice: ['snare', 'high tom', 'bass drum'][i % 3], velocity: 80, pad: 38 })) }).value.phrase.cycle // => 3
 */
export function capture(
  take: CaptureInput,
  corrections: Corrections = {},
): Result<CaptureReport, CaptureRefusal> {
  const meterText = corrections.meter ?? take.meter;
  const meter = parseMeter(meterText);
  if (!meter)
    return refused('METER', 'meter', `"${meterText}" is no meter; write one such as 4/4.`);
  const { cyclePartials } = corrections;
  const isGiven = cyclePartials !== undefined;
  if (isGiven && !isCycle(cyclePartials))
    return refused(
      'NO_CYCLE',
      'cycle',
      `A cycle has 1 to ${LONGEST} whole partials, not ${cyclePartials}.`,
    );
  const count = take.strokes.length;
  if (count < LEAST_STROKES)
    return refused(
      'TOO_FEW_STROKES',
      'strokes',
      `Found ${countOf(count, 'stroke')}, expected at least ${LEAST_STROKES}; play the phrase several times round.`,
    );
  const placement = placeInBars(take, corrections, meter);
  if (!placement)
    return refused(
      'NO_PULSE',
      'tempo',
      'Found no pulse from 60 to 200 beats a minute in the strokes; play to a click or say the tempo.',
    );
  const { bpm, strokes, hearing } = placement;
  const range = tempoRange(meter, hearing.grid.subdivision);
  if (bpm < range.least || bpm > range.most)
    return refused(
      'TEMPO',
      'tempo',
      `The tempo makes ${tempoShown(bpm)} beats a minute with ${hearing.grid.subdivision} partials each; a phrase in ${meterText} has ${range.least} to ${range.most} of them. Say a tempo in between, or another meter.`,
    );
  const transcription = transcribe(placement, meter, meterText, corrections);
  if (!transcription)
    return refused(
      'NO_CYCLE',
      'strokes',
      'Nothing was played twice; play the phrase several times round.',
    );
  const { pattern, rounds } = transcription;
  const cycleUs = (pattern.cyclePartials * 60e6) / (bpm * pattern.subdivision);
  if (!isGiven && !comesRound(strokes, cycleUs)) return refused('NO_CYCLE', 'strokes', ONE_ROUND);
  const phrase = decompose(pattern, UNTITLED, isGiven ? { cycle: pattern.cyclePartials } : {});
  if (!phrase.ok) {
    const { code, message } = phrase.errors[0]!;
    return refused(code, 'strokes', code === 'PATTERN_EMPTY' ? NO_NOTE : message);
  }
  const barPartials = meter.beatsPerBar * pattern.subdivision;
  return good({
    ...transcription,
    phrase: phrase.value,
    rounds: Math.floor((rounds * pattern.cyclePartials) / phrase.value.cycle),
    firstOn: remainder(Math.round(strokes[0]!.beat * pattern.subdivision), barPartials),
    inStepBpm: placement.inStepBpm,
  });
}

const ONE_ROUND =
  'It sounds as if it was played once: hardly a stroke comes again. Play the phrase several times round, or say how long its cycle is.';
const NO_NOTE =
  'No stroke came again in half of the rounds or more; play the same phrase several times round, or say another tempo or meter.';

const isCycle = (partials: number): boolean =>
  Number.isInteger(partials) && partials >= 1 && partials <= LONGEST;

const refused = (
  code: CaptureRefusal['code'],
  place: CaptureRefusal['place'],
  message: string,
): Result<never, CaptureRefusal> => bad({ code, place, message });
