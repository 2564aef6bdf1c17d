import { median } from 'simple-statistics';
import type { LevelBoundaries } from '../kit/kit';
import type { Level } from '../phrase/model/level';
import type { Voice } from '../phrase/model/voice';
import { levelDb } from '../score/contrast';
import { tellsLevel } from '../score/dynamics';
import type { JudgedNote } from '../score/judged-note';
import type { LevelVerdict } from '../score/level-verdict';
import { LEAST_EVIDENCE, surelyAbove, type Evidence } from './evidence';
import { finding, type Finding } from './finding';

/** Share at the wrong level from which it is told. Chosen, not measured. */
const OFTEN = 0.1;

/**
 * Levels by voice: how many of a voice's ghosts, taps or accents were too loud or too soft, and by
 * how many dB beyond the boundary of the pad, in the median of those that were. Ghosts above accents
 * are told as that alone.
 */
export function levels(evidence: Evidence): Finding[] {
  const upsideDown = inverted(evidence);
  if (upsideDown) return [upsideDown];
  const groups = new Map<string, { voice: Voice; level: Level; notes: JudgedNote[] }>();
  for (const note of evidence.judgement.notes) {
    const { voice, level } = note.due.note;
    if (!tellsLevel(note)) continue;
    const key = `${voice}|${level}`;
    const group = groups.get(key) ?? { voice, level, notes: [] };
    group.notes.push(note);
    groups.set(key, group);
  }
  return [...groups.values()].flatMap(({ voice, level, notes }) =>
    (['too loud', 'too soft'] as const).flatMap((verdict) => {
      const off = notes.filter(({ levelVerdict }) => levelVerdict === verdict);
      if (!surelyAbove(OFTEN, off.length, notes.length)) return [];
      const db = median(off.map((note) => beyondDb(note, verdict, evidence.boundaries)));
      const facts = { voice, level, times: off.length, of: notes.length, db };
      return [finding(verdict, off.length / evidence.score.overall.count, facts)];
    }),
  );
}

function inverted({ score }: Evidence): Finding | undefined {
  const { contrastDb, separation, accents, ghosts } = score.dynamics.overall;
  if (contrastDb === undefined || separation === undefined) return undefined;
  if (Math.min(accents, ghosts) < LEAST_EVIDENCE || contrastDb >= 0 || separation >= 0.5)
    return undefined;
  const weight = (accents + ghosts) / score.overall.count;
  return finding('levels inverted', weight, { db: contrastDb });
}

/** Distance of the velocity from the boundary it should have kept to, dB, positive. */
function beyondDb(
  { due, stroke }: JudgedNote,
  verdict: Exclude<LevelVerdict, 'as written'>,
  boundaries: (pad: number) => LevelBoundaries,
): number {
  const { ghostMax, accentMin } = boundaries(stroke!.pad);
  const { level } = due.note;
  const edge = (verdict === 'too loud' ? level === 'ghost' : level === 'tap')
    ? ghostMax
    : accentMin;
  return Math.abs(levelDb(stroke!.velocity) - levelDb(edge));
}
