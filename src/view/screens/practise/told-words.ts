import type { LiveStats } from '../../../live/live-stats';
import type { InputParts } from '../../app-context';

export interface Told {
  readonly sentence: string;
  readonly advice: string;
  /** Words of a link to the kit screen, where the next step is. */
  readonly toKit?: string;
}

type Players = Pick<InputParts, 'player' | 'midi' | 'file'>;

/** The one sentence beside the lane and what to do about it. */
export function toldWords(stats: LiveStats | undefined, playing: boolean, players: Players): Told {
  const { player, midi } = players;
  if (player === 'kit' && midi.kind !== 'ready' && (playing || !stats))
    return { sentence: midi.sentence, advice: midi.remedy, toKit: 'To the kit' };
  if (!stats) return playing ? begun(player) : before(players);
  if (playing && stats.overall.answered === 0 && stats.extras === 0) return silence(player);
  return { sentence: stats.finding, advice: stats.advice };
}

function begun(player: Players['player']): Told {
  const advice = 'The first figures come after one cycle.';
  if (player === 'simulated player') return { sentence: 'The simulated player plays.', advice };
  if (player === 'file') return { sentence: 'The MIDI file plays.', advice };
  return { sentence: 'Listening.', advice };
}

function before({ player, file }: Players): Told {
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

const silence = (player: Players['player']): Told => ({
  sentence: 'No stroke has arrived.',
  ...(player === 'kit'
    ? { advice: 'If you played, strike a pad on the kit screen and look.', toKit: 'To the kit' }
    : { advice: 'The lane runs on; begin at any bar.' }),
});
