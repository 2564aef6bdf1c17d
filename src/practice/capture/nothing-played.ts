import type { Inputs } from '../inputs.svelte';

/** Why nothing arrived, and what to do. */
export function nothingPlayed({ player, midi, file }: Pick<Inputs, 'player' | 'midi' | 'file'>) {
  const nothing = 'Nothing was played.';
  switch (player) {
    case 'kit':
      return midi.kind === 'ready'
        ? `${nothing} ${midi.sentence} Strike a pad; if nothing is counted then, look at the Kit screen.`
        : `${nothing} ${midi.sentence} ${midi.remedy}`;
    case 'keyboard and pads':
      return `${nothing} Strike the keys shown or the pads on the screen.`;
    case 'file':
      return file
        ? `${nothing} ${file.name} was stopped before its first stroke.`
        : `${nothing} No MIDI file is chosen yet.`;
    case 'simulated player':
      return `${nothing} The simulated player was stopped before its first stroke.`;
  }
}
