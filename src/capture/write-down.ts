import { capture, roundsWords, type Captured, type CaptureError } from './capture';
import { captureFinding, type CaptureFinding } from './capture-finding';
import { decompose } from '../phrase/decompose/decompose';
import type { PatternError } from '../phrase/decompose/target-pattern';
import type { Phrase } from '../phrase/model/phrase';
import { TEMPO_BPM } from '../phrase/model/phrase-file';
import { parseMeter } from '../time/meter';
import { bad, good, type Result } from '../time/result';
import { remainder } from '../time/whole';
import { comesRound } from './comes-round';
import type { Corrections } from './corrections';
import { onTime, type OnTime } from './on-time';
import { placeAgain, type PlacedAgain } from './place-again';
import type { Played } from './played';

export interface WrittenDown {
  readonly phrase: Phrase;
  /** Whole rounds of the phrase's cycle that were heard. */
  readonly rounds: number;
  readonly findings: readonly CaptureFinding[];
  /** Partial of the bar, from 0, on which the first stroke falls. */
  readonly firstOn: number;
}

export interface NotWritten {
  readonly code: CaptureError['code'] | PatternError['code'];
  /** What is the matter and what to do. */
  readonly message: string;
}

const UNTITLED = 'Captured';

/**
 * What was played, as a phrase taken apart into layers, with what the player says of it counting for more than what is heard.
 * It may be asked again and again with other corrections. The tempo of free playing is followed as it
 * drifts; a tempo that is simply related to it, or nearly the same, only counts its beats differently.
 */
export function writeDown(
  played: Played,
  corrections: Corrections = {},
): Result<WrittenDown, NotWritten> {
  const meter = corrections.meter ?? played.meter;
  const inMeter = parseMeter(meter);
  if (!inMeter) return refused(capture([], { meter }));
  const { strokes, late } = onTime(played);
  const inTime = { ...played, strokes };
  const placed = placeAgain(inTime, corrections, inMeter, partialsHeard(inTime, corrections));
  if (!placed) return refused(capture(played.strokes, { meter }));
  const { bpm, pulse } = placed;
  if (bpm < TEMPO_BPM.least || bpm > TEMPO_BPM.most)
    return bad({
      code: 'no-pulse',
      message: `That makes ${bpm} beats a minute; a phrase has ${TEMPO_BPM.least} to ${TEMPO_BPM.most}. Say another tempo or meter.`,
    });
  const { cyclePartials } = corrections;
  const captured = capture(placed.strokes, { meter, clickBpm: bpm, cyclePartials, pulse });
  if (!captured.ok) return captured;
  const { pattern, rounds } = captured.value;
  const cycleUs = (pattern.cyclePartials * 60e6) / (bpm * pattern.subdivision);
  const isCycleTold = cyclePartials !== undefined;
  if (!isCycleTold && !comesRound(placed.strokes, cycleUs))
    return bad({ code: 'no-cycle', message: ONE_ROUND });
  const phrase = decompose(pattern, UNTITLED, { keepCycle: isCycleTold });
  if (!phrase.ok) return refusedLayers(phrase.errors[0]!);
  const barPartials = inMeter.beatsPerBar * pattern.subdivision;
  return good({
    phrase: phrase.value,
    rounds: Math.floor((rounds * pattern.cyclePartials) / phrase.value.cycle),
    findings: told(captured.value, late ? saidLate(placed, late) : placed, isCycleTold),
    firstOn: remainder(Math.round(placed.firstBeat * pattern.subdivision), barPartials),
  });
}

/** What is said of the first stroke, with what was taken off. */
const saidLate = (placed: PlacedAgain, late: NonNullable<OnTime['late']>): PlacedAgain => ({
  ...placed,
  start: {
    confidence: Math.min(placed.start.confidence, late.confidence),
    words: `${placed.start.words}; ${late.words}`,
  },
});

/** Partials a beat as it is heard when no tempo is said: tempi are related through them. */
function partialsHeard(played: Played, { tempoBpm, meter }: Corrections): number | undefined {
  if (tempoBpm === undefined) return undefined;
  const { clickBpm, strokes } = played;
  const heard = capture(strokes, { clickBpm, meter: meter ?? played.meter });
  return heard.ok ? heard.value.pattern.subdivision : undefined;
}

const ONE_ROUND =
  'It sounds as if it was played once: hardly a stroke comes again. Play the phrase several times round, or say how long its cycle is.';
const refused = (result: ReturnType<typeof capture>): Result<never, NotWritten> =>
  result.ok ? bad({ code: 'no-pulse', message: NO_PULSE }) : result;
const NO_PULSE = 'Found no even pulse in the strokes; say the tempo, or play to the click.';

function refusedLayers(error: PatternError): Result<never, NotWritten> {
  if (error.code !== 'PATTERN_EMPTY') return bad(error);
  return bad({
    code: error.code,
    message:
      'No stroke came again in half of the rounds or more; play the same phrase several times round, or say another tempo or meter.',
  });
}

/** The findings with what capture cannot know: that there was no click, or that the player said so. */
function told(
  { findings, pattern, rounds }: Captured,
  placed: PlacedAgain,
  isCycleTold: boolean,
): CaptureFinding[] {
  const { tempo, start } = placed;
  return findings.map((finding) => {
    const { about, confidence } = finding;
    if (about === 'tempo')
      return captureFinding(about, tempo.confidence, `${pattern.tempoBpm} ${tempo.words}`);
    if (about === 'meter position')
      return captureFinding(about, Math.min(start.confidence, confidence), start.words);
    if (about === 'cycle' && isCycleTold)
      return captureFinding(
        about,
        1,
        `${pattern.cyclePartials} partials, as you said, ${roundsWords(rounds)}`,
      );
    if (about !== 'subdivision' || tempo.confidence >= confidence) return finding;
    const found = finding.sentence.replace(/^.*?: |\.$/g, '');
    return captureFinding(about, tempo.confidence, found);
  });
}
