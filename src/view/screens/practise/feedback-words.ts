import type { LiveStats } from '../../../live/live-stats';
import type { InputParts } from '../../app-context';
import { countText, figureText, sideOf } from '../../figures/format';

export interface FeedbackLine {
  readonly sentence: string;
  readonly advice: string;
  /** Words of a link to the kit screen, where the next step is. */
  readonly toKit?: string;
}

type Players = Pick<InputParts, 'player' | 'port' | 'file'>;

/** The one sentence beside the lane and what to do about it. */
export function feedbackWords(
  stats: LiveStats | undefined,
  playing: boolean,
  players: Players,
): FeedbackLine {
  const { player } = players;
  const midi = players.port.state;
  if (player === 'kit' && midi.kind !== 'ready' && (playing || !stats))
    return { sentence: midi.sentence, advice: midi.remedy, toKit: 'To the kit' };
  if (!stats) return playing ? begun(player) : before(players);
  if (playing && stats.overall.answered === 0 && stats.extras === 0) return silence(player);
  return { sentence: stats.finding, advice: stats.advice };
}

function begun(player: Players['player']): FeedbackLine {
  const advice = 'The first figures come after one cycle.';
  if (player === 'simulated player') return { sentence: 'The simulated player plays.', advice };
  if (player === 'file') return { sentence: 'The MIDI file plays.', advice };
  return { sentence: 'Listening.', advice };
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

/** The last cycle, to be read aloud. */
export function cycleWords({
  cyclesPlayed,
  lastCycle,
}: Pick<LiveStats, 'cyclesPlayed' | 'lastCycle'>): string {
  const { meanMs } = lastCycle;
  const start = `Cycle ${cyclesPlayed}: ${countText(lastCycle)} as written`;
  if (meanMs === undefined) return `${start}.`;
  const side = sideOf(meanMs);
  return side
    ? `${start}, ${figureText(Math.abs(meanMs))} milliseconds ${side} on average.`
    : `${start}, neither early nor late on average.`;
}
