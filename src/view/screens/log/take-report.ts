import { clickReturns, type ClickReturn } from '../../../coach/click-returns';
import type { Finding } from '../../../coach/finding';
import { findings } from '../../../coach/findings';
import { boundariesOf } from '../../../kit/boundaries-of';
import { strokesSetAside } from '../../../kit/pad-fault';
import { limbName } from '../../../phrase/model/limb';
import type { OpenedTake } from '../../../live/open-take';
import { figuresOf, type Figures } from '../../../score/figures';
import { scoreTake, type TakeScore } from '../../../score/score-take';
import { gateOfTake, trialsOf } from '../../../score/trials';
import { playedSwing } from '../../../score/played-swing';
import { readStrokes } from '../../../kit/read-strokes';
import { alignedMessages } from '../../../kit/aligned-messages';
import { isByHand } from '../../../take/player';
import type { Take } from '../../../take/take';
import { followedWords } from '../../../coach/place/followed-words';
import { endsLost } from '../../../coach/place/slip';
import { gateWords } from '../../../coach/gate-words';
import { guessWords } from '../../../coach/guess-words';
import { padsWithoutLevelsWords } from '../../../coach/pads-without-levels-words';
import { nameOfPad } from '../../../kit/kit';
import { padsWithoutLevels } from '../../../score/pads-without-levels';
import { setAsideWords, unmappedWords } from '../../../coach/stray-words';
import { swingWords } from '../../../coach/swing-words';
import { figureText, percentText } from '../../figures/format';

export interface FigureRow {
  readonly name: string;
  readonly figures: Figures;
}

export interface FigureGroup {
  /** Empty for the whole take. */
  readonly name: string;
  readonly rows: readonly FigureRow[];
}

export interface TakeReport {
  readonly score: TakeScore;
  /** All of them, most first; never empty. */
  readonly findings: readonly Finding[];
  readonly groups: readonly FigureGroup[];
  /** What was put down to the kit, what it has no pad for, and how the off-beats lay. */
  readonly remarks: readonly string[];
  readonly gate: string;
  /** What the player said of the last trial's time, and what it was; undefined where nobody was asked. */
  readonly guess: string | undefined;
  /** What came of bars without a click. */
  readonly returns: readonly ClickReturn[];
}

/** All that is told of an opened take. */
export function takeReport(take: Take, opened: OpenedTake): TakeReport {
  const { plan, judgement, slips, followed } = opened;
  const score = scoreTake(judgement);
  const { setAside, unmapped } = readStrokes(alignedMessages(take), take.kit);
  const layerName = (layer: number) => `${layer} ${plan.phrase.layers[layer - 1]?.name ?? ''}`;
  return {
    score,
    findings: findings(plan, judgement, (pad) => boundariesOf(take.kit, pad), { slips }),
    groups: [
      { name: '', rows: [{ name: 'all notes', figures: score.overall }] },
      group('by layer', score.byLayer, layerName),
      group('by voice', score.byVoice, String),
      group('by limb', score.byLimb, limbName),
      group('by level', score.byLevel, String),
      group('by position', score.byPosition, (position) =>
        position > 0 ? String(position) : `pickup ${figureText(position)}`,
      ),
    ],
    remarks: [
      ...followedWords(judgement, followed, percentText),
      ...padsWithoutLevelsWords(padsWithoutLevels(judgement.notes), (pad) =>
        nameOfPad(take.kit, pad),
      ),
      ...setAsideWords(strokesSetAside(setAside)),
      ...unmappedWords(unmapped),
      ...swingWords(playedSwing(plan, judgement)),
    ],
    returns: clickReturns(plan, judgement.notes),
    gate: gateWords(
      gateOfTake(plan, judgement, take.trials),
      isByHand(take.player),
      endsLost(slips),
    ),
    guess: take.guess && guessWords(take.guess, lastMeanMs(take, opened)),
  };
}

const lastMeanMs = ({ trials }: Take, { plan, judgement }: OpenedTake) =>
  figuresOf(trialsOf(plan, judgement, trials).at(-1)?.judgement.notes ?? []).meanMs;

const group = <Key>(
  name: string,
  figures: ReadonlyMap<Key, Figures>,
  nameOf: (key: Key) => string,
): FigureGroup => ({
  name,
  rows: [...figures].map(([key, of]) => ({ name: nameOf(key), figures: of })),
});
