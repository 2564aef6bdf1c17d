import { meanOfUnits } from '../../score/cycle-means';
import { tellsLevel } from '../../score/dynamics';
import { isAsWritten } from '../../score/figures';
import type { JudgedNote } from '../../score/judged-note';
import type { Cause } from '../evidence/causes';
import { classContrasts } from '../evidence/class-contrasts';
import { unitMeans } from '../evidence/contrast';
import type { Evidence } from '../evidence/evidence';
import { FEWEST_UNITS } from '../evidence/units';
import type { Finding } from '../finding';
import { bpmOf, tellsTempo, type TakeEvidence } from '../take-evidence';
import { lineOfCourse } from '../timing/departure';
import { meanAt, placingsOf } from '../timing/placings';
import { spreadOf } from '../timing/spreads';
import { playedRatio } from '../timing/timing-findings';
import type { Measure } from './difference';

/** What a finding is about, as it is in one take. */
export type Reading = Measure & ReadingFigures;

/** What is told of it. */
export type ReadingFigures =
  | {
      readonly kind: 'placing';
      /** From the rest, from the click, and the rest from the click, ms, early negative. */
      readonly apartMs: number;
      readonly ownMs: number;
      readonly restMs: number;
      readonly noticeableMs: number;
    }
  | { readonly kind: 'swing'; readonly ratio: number }
  | { readonly kind: 'spread'; readonly ms: number }
  /** Beats a minute quicker than the click, slower negative. */
  | { readonly kind: 'tempo'; readonly quickerBpm: number }
  | { readonly kind: 'share'; readonly times: number; readonly of: number };

/** The figure of a finding in any take of the same notes; undefined where there is none, or too few strokes tell it. */
export function readingOf(take: TakeEvidence, told: Finding): Reading | undefined {
  const { evidence } = take;
  const { notes } = evidence.judgement;
  const all = [...notes.keys()];
  const onVoice = (voice: string) => all.filter((one) => notes[one]!.due.note.voice === voice);
  // A voice that all notes are on is no cause, but levels are told of it.
  const named = (name: string | undefined) =>
    name === undefined ? all : (sidesOf(evidence, name)?.cause.notes ?? onVoice(name));
  switch (told.code) {
    case 'other tempo':
      return tempoReading(take);
    case 'swing':
      return placingReading(evidence, 'off-beats', 'swing');
    case 'partial off':
    case 'limb off':
    case 'voice off':
    case 'level off':
    case 'layer off':
    case 'position off':
    case 'transition off':
    case 'unison off':
      return placingReading(evidence, told.facts.name);
    case 'spread apart':
      return spreadReading(evidence, named(told.facts.name));
    case 'spread':
      return spreadReading(evidence, all);
    case 'missed':
      return shareReading(evidence, named(told.facts.name), ({ verdict }) => verdict === 'missed');
    case 'too loud':
    case 'too soft': {
      const { level, name } = told.facts;
      const at = named(name).filter(
        (one) => notes[one]!.due.note.level === level && tellsLevel(notes[one]!),
      );
      return shareReading(evidence, at, ({ levelVerdict }) => levelVerdict === told.code);
    }
    case 'wrong voice': {
      const { written, struck } = told.facts;
      return shareReading(
        evidence,
        onVoice(written),
        ({ verdict, stroke }) => verdict === 'wrong voice' && stroke?.voice === struck,
      );
    }
    case 'own notes wrong': {
      const at = all.filter((one) => notes[one]!.due.note.layers.includes(evidence.layer));
      return shareReading(evidence, at, (note) => !isAsWritten(note));
    }
    default:
      return undefined;
  }
}

/** A cause by its name, the class that it is of, and which side of it; a name means the same in every take of the same notes. */
function sidesOf({ classes }: Evidence, name: string, kind?: Cause['kind']) {
  for (const [index, { causes, opposite, group, rest }] of classes.entries()) {
    const is = (cause: Cause) => cause.name === name && (kind ?? cause.kind) === cause.kind;
    const own = causes.find(is);
    if (own) return { cause: own, index, sign: 1, rest };
    const other = opposite.find(is);
    if (other) return { cause: other, index, sign: -1, rest: group };
  }
  return undefined;
}

function placingReading(
  evidence: Evidence,
  name: string,
  kind?: Cause['kind'],
): Reading | undefined {
  const side = sidesOf(evidence, name, kind);
  const contrast = side && classContrasts(evidence, evidence.offsets)[side.index];
  if (!side || !contrast) return undefined;
  const { error, df } = contrast;
  const mean = side.sign * contrast.mean;
  const measure = { mean, error, df, half: Math.abs(mean) / 2 };
  if (kind === 'swing') return { ...measure, kind, ratio: playedRatio(evidence, mean) };
  return {
    ...measure,
    kind: 'placing',
    apartMs: mean,
    ownMs: meanAt(evidence.offsets, side.cause.notes),
    restMs: meanAt(evidence.offsets, side.rest),
    noticeableMs: evidence.noticeableMs,
  };
}

function tempoReading(take: TakeEvidence): Reading | undefined {
  if (!tellsTempo(take)) return undefined;
  const { course, evidence, inPlace } = take;
  const { m: slope, error, df } = lineOfCourse(course);
  const clickBpm = bpmOf(
    evidence.plan,
    inPlace.notes.map(({ due }) => due),
  );
  const quickerBpm = clickBpm / (1 + slope) - clickBpm;
  return { mean: slope, error, df, half: Math.abs(slope) / 2, kind: 'tempo', quickerBpm };
}

/** Compared as its logarithm: spreads of as many strokes scatter by a share of themselves. */
function spreadReading(evidence: Evidence, notes: readonly number[]): Reading | undefined {
  const { residuals } = placingsOf(evidence);
  const { ms, logs } = spreadOf(residuals, evidence.units, notes);
  if (logs.length < FEWEST_UNITS) return undefined;
  return { ...meanOfUnits(logs), half: Math.LN2, kind: 'spread', ms };
}

/** How often something happens to notes (indices), from the shares of units; never surer than so many strokes by themselves would be. */
function shareReading(
  { judgement: { notes }, units }: Evidence,
  could: readonly number[],
  happens: (note: JudgedNote) => boolean,
): Reading | undefined {
  const values = Float64Array.from(notes, (note) => Number(happens(note)));
  const { mean, count } = unitMeans(values, units, could);
  const shares = [...mean].filter((_, unit) => count[unit]! > 0);
  if (shares.length < FEWEST_UNITS) return undefined;
  const of = could.length;
  const times = could.filter((at) => happens(notes[at]!)).length;
  const { error, df } = meanOfUnits(shares);
  const share = times / of;
  return {
    mean: share,
    error: Math.max(error, binomialError(times, of)),
    df,
    half: share / 2,
    kind: 'share',
    times,
    of,
  };
}

/** With one of either added, so that it is never 0 (Agresti & Caffo 2000, Am. Stat. 54:280-288 [M]). */
function binomialError(times: number, of: number): number {
  const share = (times + 1) / (of + 2);
  return Math.sqrt((share * (1 - share)) / (of + 2));
}
