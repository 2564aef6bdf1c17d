import type { CycleStats, LiveStats } from '../../../../live/live-stats';
import type { InputParts } from '../../../app-context';
import { countText, figureText, sideOf } from '../../../figures/format';
import { unknownNoteWords } from '../../../../coach/stray-words';
import { FIRST_START } from '../../../shell/route';
import { plural } from '../../../../words/words';

export interface FeedbackLine {
  readonly sentence: string;
  readonly advice: string;
  /** Whether the advice speaks of the button that asks for MIDI. */
  readonly toConnect?: boolean;
  /** Words of a link to the kit screen, where the next step is. */
  readonly toKit?: string;
  /** The page behind the kit screen that it leads to, if it does. */
  readonly kitPage?: typeof FIRST_START;
}

type Players = Pick<InputParts, 'player' | 'kitAway' | 'monitor' | 'file' | 'isUnasked'>;

/** The one sentence beside the lane and what to do about it. */
export function feedbackWords(
  stats: LiveStats | undefined,
  playing: boolean,
  players: Players,
): FeedbackLine {
  const { player, kitAway, monitor, isUnasked } = players;
  if (isUnasked && !playing && !stats)
    return { sentence: 'Nothing played yet.', advice: 'Say first who plays.' };
  // What was played on a kit that has been there is told when it is over.
  if (kitAway && (playing || !stats || kitAway.kind !== 'unplugged'))
    return {
      sentence: kitAway.sentence,
      advice: kitAway.remedy,
      toConnect: true,
      // There is nothing to be done about the kit.
      ...(kitAway.kind === 'unsupported'
        ? { toKit: 'Play without the kit', kitPage: FIRST_START }
        : { toKit: 'To the kit' }),
    };
  const [unknown] = monitor.unknown;
  if (player === 'kit' && unknown)
    return {
      sentence: unknownNoteWords(unknown),
      advice: 'It is not judged until you say what it is.',
    };
  if (!stats || (playing && stats.overall.count === 0))
    return playing ? begun(player) : before(players);
  if (playing && stats.overall.answered === 0 && stats.extras === 0) return silence(player);
  if (playing && stats.finding === '')
    return {
      sentence: 'The take goes on.',
      advice: stats.code === 'lost place' ? '' : 'What stands out is said after the take.',
    };
  return { sentence: stats.finding, advice: stats.advice };
}

function begun(player: Players['player']): FeedbackLine {
  const when = 'come after a cycle, or after a few short ones.';
  const advice = `Figures ${when}`;
  if (player === 'simulated player') return { sentence: 'The simulated player plays.', advice };
  if (player === 'file') return { sentence: 'The MIDI file plays.', advice };
  return { sentence: 'No figures yet.', advice: `They ${when}` };
}

function before({ player, file }: Players): FeedbackLine {
  const sentence = 'Nothing played yet.';
  if (player === 'simulated player')
    return {
      sentence,
      advice: 'Press start to see the simulated player play. To play yourself:',
      toKit: 'Connect the kit',
    };
  if (player !== 'file') return { sentence, advice: 'Press start and play after the count-in.' };
  return file
    ? { sentence, advice: `Press start, and ${file.name} plays.` }
    : { sentence, advice: 'Choose the MIDI file under Playing, then press start.' };
}

const silence = (player: Players['player']): FeedbackLine => ({
  sentence: 'No stroke has arrived.',
  ...(player === 'kit'
    ? { advice: 'If you played, strike a pad on the kit screen and look.', toKit: 'To the kit' }
    : { advice: 'The lane runs on; begin at any bar.' }),
});

/** Which they are. @example cyclesText({ fromCycle: 7, toCycle: 9 }) // => 'Cycles 7 to 9' */
export const cyclesText = ({
  fromCycle,
  toCycle,
}: Pick<CycleStats, 'fromCycle' | 'toCycle'>): string =>
  fromCycle === toCycle ? `Cycle ${toCycle}` : `Cycles ${fromCycle} to ${toCycle}`;

/** The last cycles, to be read aloud. */
export function cycleWords(cycles: Pick<CycleStats, 'fromCycle' | 'toCycle' | 'figures'>): string {
  const { meanMs } = cycles.figures;
  const start = `${cyclesText(cycles)}: ${countText(cycles.figures)} as written`;
  if (meanMs === undefined) return `${start}.`;
  const side = sideOf(meanMs);
  const ms = figureText(Math.abs(meanMs));
  return side
    ? `${start}, ${ms} ${plural(Number(ms), 'millisecond')} ${side} on average.`
    : `${start}, neither early nor late on average.`;
}
