import { median } from 'simple-statistics';
import { LEVELS, type Level } from '../../phrase/model/level';
import { contrastDb, levelDb } from '../../score/contrast';
import { meanOfUnits } from '../../score/cycle-means';
import { tellsLevel } from '../../score/dynamics';
import type { JudgedNote } from '../../score/judged-note';
import type { LevelVerdict } from '../../score/level-verdict';
import { separation } from '../../score/separation';
import { tQuantile } from '../../score/statistics/student-t';
import { certaintyOf } from '../evidence/certainty';
import type { Evidence } from '../evidence/evidence';
import { FEWEST_UNITS } from '../evidence/units';
import { finding, type Finding } from '../finding';
import type { TimedNote } from '../../match/timed-note';
import { LEAST_EVIDENCE, surelyAbove, whereOf, type Where } from './where';

/** Share at the wrong level from which it is told. Chosen, not measured. */
const OFTEN = 0.1;
/** Accents over ghosts, dB, from which a phrase is heard as in two layers. Chosen, not measured. */
export const LEAST_CONTRAST_DB = 15;

/**
 * Levels against the boundaries of the pads; where all keep inside them, accents against ghosts. Ghosts above accents
 * are told as that alone.
 */
export function levels(evidence: Evidence): Finding[] {
  const upsideDown = inverted(evidence);
  if (upsideDown) return [upsideDown];
  const beyond = LEVELS.flatMap((level) =>
    (['too loud', 'too soft'] as const).flatMap((verdict) => wrongLevels(evidence, level, verdict)),
  );
  return beyond.length > 0 ? beyond : lowContrast(evidence);
}

function wrongLevels(
  evidence: Evidence,
  level: Level,
  verdict: Exclude<LevelVerdict, 'as written'>,
): Finding[] {
  const { notes } = evidence.judgement;
  const isOff = (at: number) => notes[at]!.levelVerdict === verdict;
  const all = [...notes.keys()];
  if (!all.some((at) => isOff(at) && notes[at]!.due.note.level === level)) return [];
  const could = all.filter((at) => isAtLevel(notes[at]!, level));
  return whereOf(evidence, could, isOff, OFTEN)
    .filter(({ times, of }) => surelyAbove(OFTEN, times, of))
    .map((where) => {
      const off = where.notes.map((at) => notes[at]!);
      return finding(
        verdict,
        off.length / notes.length,
        where.group.map((at) => notes[at]!.due),
        {
          level,
          name: nameOf(where, notes),
          times: where.times,
          of: where.of,
          db: median(off.map((note) => beyondDb(note, verdict, evidence))),
        },
      );
    });
}

const isAtLevel = (note: JudgedNote, level: Level): boolean =>
  tellsLevel(note) && note.due.note.level === level;

/** The cause, or the one voice that all of them are on. */
function nameOf({ cause, notes: at }: Where, notes: readonly JudgedNote[]): string | undefined {
  if (cause) return cause.kind === 'level' ? undefined : cause.name;
  const voices = new Set(at.map((one) => notes[one]!.due.note.voice));
  return voices.size === 1 ? [...voices][0] : undefined;
}

function inverted({ judgement: { notes } }: Evidence): Finding | undefined {
  const { accents, ghosts, dues } = accentsAndGhosts(notes);
  if (Math.min(accents.length, ghosts.length) < LEAST_EVIDENCE) return undefined;
  const db = contrastDb(accents, ghosts)!;
  if (db >= 0 || separation(accents, ghosts)! >= 0.5) return undefined;
  return finding('levels inverted', dues.length / notes.length, dues, { db });
}

/** Less than the stated contrast, surely: the 99 % point of the mean over units lies below it. */
function lowContrast({ judgement: { notes }, units }: Evidence): Finding[] {
  const { dues } = accentsAndGhosts(notes);
  const byUnit = Array.from({ length: units.count }, () => ({
    accents: [] as number[],
    ghosts: [] as number[],
  }));
  notes.forEach((note, at) => {
    const group = byUnit[units.of[at]!];
    if (isAtLevel(note, 'accent')) group?.accents.push(note.stroke!.velocity);
    if (isAtLevel(note, 'ghost')) group?.ghosts.push(note.stroke!.velocity);
  });
  const contrasts = byUnit.flatMap(({ accents, ghosts }) => contrastDb(accents, ghosts) ?? []);
  if (contrasts.length < FEWEST_UNITS) return [];
  const own = meanOfUnits(contrasts);
  const { mean: db, error, df } = own;
  if (db + tQuantile(0.99, df) * error >= LEAST_CONTRAST_DB) return [];
  const facts = { db, aimDb: LEAST_CONTRAST_DB, sure: certaintyOf(dues, own) };
  return [finding('contrast', dues.length / notes.length, dues, facts)];
}

function accentsAndGhosts(notes: readonly JudgedNote[]) {
  const at = (level: Level) => notes.filter((note) => isAtLevel(note, level));
  const velocities = (of: readonly JudgedNote[]) => of.map(({ stroke }) => stroke!.velocity);
  const [accents, ghosts] = [at('accent'), at('ghost')];
  const dues: TimedNote[] = [...accents, ...ghosts].map(({ due }) => due);
  return { accents: velocities(accents), ghosts: velocities(ghosts), dues };
}

/** Distance of the velocity from the boundary it should have kept to, dB, positive. */
function beyondDb(
  { due, stroke }: JudgedNote,
  verdict: Exclude<LevelVerdict, 'as written'>,
  { boundaries }: Evidence,
): number {
  const { ghostMax, accentMin } = boundaries(stroke!.pad);
  const { level } = due.note;
  const edge = (verdict === 'too loud' ? level === 'ghost' : level === 'tap')
    ? ghostMax
    : accentMin;
  return Math.abs(levelDb(stroke!.velocity) - levelDb(edge));
}
