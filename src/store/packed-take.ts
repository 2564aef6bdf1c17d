import { parseKit, writeKit } from '../kit/parse-kit';
import type { Passage } from '../phrase/model/passage';
import type { Guess } from '../take/guess';
import type { Player } from '../take/player';
import type { Take, TakeTrials } from '../take/take';
import type { TakeExercise } from '../take/take-exercise';
import type { SilentBars } from '../time/silent-bars';
import { parseBeats } from '../time/beats';
import { packMessages, unpackMessages, type MessageColumns } from './message-columns';

/** Raise it when the fields change; `unpackTake` reads every version up to it. */
const PACKED_VERSION = 4;

/** A take as one record: the raw messages as columns, what is exact as text. */
export interface PackedTake extends MessageColumns {
  readonly id: string;
  readonly v: number;
  readonly startedAt: string;
  readonly player?: Player | undefined;
  readonly trials?: TakeTrials | undefined;
  /** Since version 3. */
  readonly guess?: Guess | undefined;
  /** Since version 4. */
  readonly exercise?: TakeExercise | undefined;
  readonly phraseText: string;
  readonly kitText: string;
  /** Moved targets since version 4. */
  readonly passages: readonly Passage[];
  readonly tempos: readonly { readonly fromBeat: string; readonly bpm: number }[];
  readonly countInBars: number;
  readonly endUs: number;
  readonly deviceOffsetMs: number;
  readonly toleranceMs: number | undefined;
  readonly reachMs: number | undefined;
  /** Since version 3. */
  readonly silentBars?: SilentBars | undefined;
}

/** Copies all of it, so that what is stored holds no proxy and nothing shared. */
export function packTake(id: string, take: Take): PackedTake {
  const { startedAt, player, trials, guess, phraseText, countInBars, endUs, messages } = take;
  const { exercise } = take;
  const { deviceOffsetMs, toleranceMs, reachMs, silentBars } = take;
  return {
    id,
    v: PACKED_VERSION,
    startedAt,
    player,
    trials: trials && structuredClone(trials),
    guess,
    ...(exercise && { exercise: structuredClone(exercise) }),
    phraseText,
    kitText: writeKit(take.kit),
    passages: take.passages.map((passage) => ({ ...passage })),
    tempos: take.tempos.map(({ fromBeat, bpm }) => ({ fromBeat: fromBeat.toFraction(), bpm })),
    countInBars,
    endUs,
    deviceOffsetMs,
    toleranceMs,
    reachMs,
    ...(silentBars && { silentBars: { ...silentBars } }),
    ...packMessages(messages),
  };
}

/** The take that was packed; undefined when this code cannot read it. */
export function unpackTake(packed: PackedTake): Take | undefined {
  if (packed.v > PACKED_VERSION) return undefined;
  const kit = parseKit(packed.kitText);
  const tempos = packed.tempos.flatMap(({ fromBeat, bpm }) => {
    const beat = parseBeats(fromBeat);
    return beat ? [{ fromBeat: beat, bpm }] : [];
  });
  if (!kit.ok || tempos.length !== packed.tempos.length) return undefined;
  const { startedAt, player, trials, guess, phraseText, passages, countInBars, endUs } = packed;
  const { deviceOffsetMs = 0, toleranceMs, reachMs, silentBars, exercise } = packed;
  return {
    startedAt,
    player,
    trials,
    guess,
    ...(exercise && { exercise }),
    phraseText,
    passages,
    tempos,
    countInBars,
    endUs,
    kit: kit.value,
    deviceOffsetMs,
    toleranceMs,
    reachMs,
    ...(silentBars && { silentBars }),
    messages: unpackMessages(packed),
  };
}
