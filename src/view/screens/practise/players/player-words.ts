import type { Player } from '../../../../take/player';
import type { InputParts } from '../../../app-context';

export const PLAYER_NAMES: Readonly<Record<Player, string>> = {
  kit: 'the kit',
  'keyboard and pads': 'computer keyboard and pads on the screen',
  file: 'a MIDI file',
  'simulated player': 'the simulated player',
};

type Players = Pick<InputParts, 'player' | 'port' | 'file'>;

/** Who plays, in one line. */
export function playerWords({ player, port, file }: Players): string {
  if (player === 'kit') return `the kit. ${port.state.sentence}`;
  if (player === 'file')
    return file ? `the MIDI file ${file.name}` : 'a MIDI file, none chosen yet';
  return PLAYER_NAMES[player];
}
