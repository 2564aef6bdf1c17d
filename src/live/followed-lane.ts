import { mainIndex } from '../match/timed-note';
import { LEVELS } from '../phrase/model/level';
import { LIMBS } from '../phrase/model/limb';
import { voiceNumber } from '../phrase/model/voice';
import type { Judgement } from '../score/judge';
import { mixedNumber } from '../time/beats';
import { LANE_LEVEL_VERDICTS, LANE_VERDICTS, type LaneFeed } from './lane-feed';

/**
 * The lane of a take with its notes where they were played: judged so (`followSlips`), they stand on the click where the place
 * was kept and beside it where it was lost. Strokes and rulers stay.
 */
export function followedLane(lane: LaneFeed, { notes }: Judgement): LaneFeed {
  const dues = notes.map(({ due }) => due);
  const strokes = strokesByKey(lane);
  const noteStroke = Int32Array.from(notes, ({ stroke }) =>
    stroke ? (strokes.get(strokeKey(stroke.timeUs, voiceNumber(stroke.voice)))?.shift() ?? -1) : -1,
  );
  const strokeNote = new Int32Array(lane.strokeCount).fill(-1);
  noteStroke.forEach((stroke, note) => {
    if (stroke >= 0) strokeNote[stroke] = note;
  });
  return {
    noteCount: notes.length,
    noteTimeUs: Float64Array.from(dues, ({ timeUs }) => timeUs),
    noteVoice: Uint8Array.from(dues, ({ note }) => voiceNumber(note.voice)),
    noteLevel: Uint8Array.from(dues, ({ note }) => LEVELS.indexOf(note.level)),
    noteLimb: Uint8Array.from(dues, ({ note }) => LIMBS.indexOf(note.limb)),
    noteGraceStep: Uint8Array.from(dues, ({ note }) => note.graceStep),
    noteMain: Int32Array.from(dues, (_, i) => mainIndex(dues, i)),
    noteReachUs: Float64Array.from(dues, ({ reachUs }) => reachUs),
    noteToleranceUs: Float64Array.from(dues, ({ toleranceUs }) => toleranceUs),
    noteBar: Int32Array.from(dues, ({ note }) => note.bar),
    noteBeatLabel: dues.map(({ note }) => mixedNumber(note.beat)),
    noteCycle: Int32Array.from(dues, ({ note }) => note.cycle),
    notePosition: Int32Array.from(dues, ({ note }) => note.position),
    noteVerdict: Uint8Array.from(notes, ({ verdict }) => LANE_VERDICTS.indexOf(verdict)),
    noteLevelVerdict: Uint8Array.from(notes, ({ stroke, levelVerdict }) =>
      stroke ? LANE_LEVEL_VERDICTS.indexOf(levelVerdict ?? 'not judged') : 0,
    ),
    noteStroke,
    strokeCount: lane.strokeCount,
    strokeTimeUs: lane.strokeTimeUs,
    strokeVoice: lane.strokeVoice,
    strokeVelocity: lane.strokeVelocity,
    strokeNote,
    strokeSetAside: lane.strokeSetAside,
    accompaniment: lane.accompaniment,
    marks: lane.marks,
    cycles: lane.cycles,
    rows: lane.rows,
  };
}

const strokeKey = (timeUs: number, voice: number): string => `${timeUs} ${voice}`;

/** The lane's strokes that may answer a note, in order. */
function strokesByKey(lane: LaneFeed): Map<string, number[]> {
  const byKey = new Map<string, number[]>();
  for (let stroke = 0; stroke < lane.strokeCount; stroke++) {
    if (lane.strokeSetAside[stroke]! > 0) continue;
    const key = strokeKey(lane.strokeTimeUs[stroke]!, lane.strokeVoice[stroke]!);
    const alike = byKey.get(key);
    if (alike) alike.push(stroke);
    else byKey.set(key, [stroke]);
  }
  return byKey;
}
