import { phraseVoices } from '../../../phrase/layers/phrase-voices';
import { voiceNumber } from '../../../phrase/model/voice';
import type { SessionParts } from '../../app-context';

/** How the player wants the lane, as its properties. */
export function laneChoices({ choices, phrase }: Pick<SessionParts, 'choices' | 'phrase'>): {
  readonly still: boolean;
  readonly spanSeconds: number | undefined;
  /** Numbers of the voices that have a row from the start, in a text that is the same for the same ones. */
  readonly rows: string;
} {
  const { stillPage, laneSeconds, laneRows } = choices;
  const voices = phrase && laneRows === 'all of the phrase' ? phraseVoices(phrase) : [];
  return { still: stillPage, spanSeconds: laneSeconds, rows: voices.map(voiceNumber).join(' ') };
}
