import { evidenceOf, type Evidence } from '../../../src/coach/evidence/evidence';
import type { Stroke } from '../../../src/kit/stroke';
import type { TimedNote } from '../../../src/match/timed-note';
import type { Level } from '../../../src/phrase/model/level';
import { voiceNumber, type Voice } from '../../../src/phrase/model/voice';
import type { Judgement } from '../../../src/score/judge';
import { BOUNDARIES, harbourNotes, harbourPlan, judged } from '../practice-take';

const VELOCITIES: Readonly<Record<Level, number>> = { ghost: 34, tap: 72, accent: 113 };

/** Every voice is a pad of its own. */
export const strokeOn = (voice: Voice, timeUs: number, velocity: number): Stroke => ({
  timeUs,
  voice,
  velocity,
  pad: voiceNumber(voice),
});

/** What a layer of the harbour phrase, or of another file, shows played without a fault in so many bars, and with it. */
export function perfectTake(bars: number, layer = 2, file?: unknown) {
  const dues: readonly TimedNote[] = harbourNotes(bars, layer, file);
  const strokes = dues.map(({ timeUs, note }) =>
    strokeOn(note.voice, timeUs, VELOCITIES[note.level]),
  );
  const plan = harbourPlan(layer, file);
  const evidenceIn = (judgement: Judgement): Evidence =>
    evidenceOf(plan, layer, judgement, () => BOUNDARIES, 0.02);
  return { dues, strokes, judgement: judged(dues, strokes), evidenceIn };
}
