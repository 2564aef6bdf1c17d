import type { Plan } from '../match/plan';
import { layerShape } from '../phrase/layers/layer-shape';
import { isTimed } from './figures';
import type { Judgement } from './judge';
import type { JudgedNote } from './judged-note';
import { swingRatio, type SwingEstimate } from './swing-ratio';

/** How the off-beat eighths of a take lay, beside how they were written. */
export interface PlayedSwing extends SwingEstimate {
  /** Long to short as written: 1 is straight. */
  readonly written: number;
  /** Off-beats the ratio rests on. */
  readonly offbeats: number;
}

/**
 * The swing of a take's last layer at its last tempo, from strokes on the beats and on the off-beat
 * eighths. Undefined where the meter does not count quarters, and where either kind of stroke is rare.
 *
 * @example playedSwing({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, { notes: [], extras: [] }) // => undefined
 */
export function playedSwing(plan: Plan, { notes }: Judgement): PlayedSwing | undefined {
  const last = notes.at(-1)?.due;
  if (!last || plan.phrase.meter.unit !== 4) return undefined;
  const tempo = plan.tempo.changes.at(-1)!;
  const told = notes.filter(
    (note) =>
      isTimed(note) &&
      note.due.layer === last.layer &&
      note.due.note.graceStep === 0 &&
      note.due.note.onset.compare(tempo.fromBeat) >= 0,
  );
  const offsets = (eighth: 0 | 1) =>
    told.filter((note) => eighthOfBeat(note) === eighth).map((note) => note.offsetUs! / 1000);
  const written = layerShape(plan.phrase, last.layer).swing?.valueOf() ?? 1;
  const offbeatMs = offsets(1);
  const found = swingRatio({
    beatMs: 60_000 / tempo.bpm,
    writtenShare: written / (1 + written),
    onbeatMs: offsets(0),
    offbeatMs,
  });
  return found && { ...found, written, offbeats: offbeatMs.length };
}

/** 0 on the beat, 1 on its off-beat eighth as written, else undefined. */
function eighthOfBeat({ due }: JudgedNote): 0 | 1 | undefined {
  const halves = due.note.beat.mul(2);
  if (halves.d !== 1n) return undefined;
  return halves.n % 2n === 0n ? 0 : 1;
}
