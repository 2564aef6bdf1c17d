import type { LiveTake } from '../../live/live-take';
import { MOST_IN_LIST, MOST_MESSAGES, MOST_PASSAGES, MOST_TEMPOS } from '../../take/take-file';
import { hasRoom } from '../../take/take-length';

/** As many characters as a message has in a file at least: "[0,128,0,0],". */
const CHARACTERS_A_MESSAGE = 12;
/** What a list keeps free for what comes until the take has ended. */
const SHARE = 0.9;

/** Said where a take was ended since it would not have been. */
export const TAKE_FULL =
  'The take has ended by itself: nothing was struck for long, or it is as long as a take can be. What was struck is kept; start again to go on.';

/**
 * How far a take may go on. One that is played needs no more than hours allow; one in which nothing is struck any more
 * comes to an end.
 */
export class TakeRoom {
  readonly #characters: number;

  /** @param characters of its file as long as nothing is struck: the longer, the longer a take waits for a stroke */
  constructor(characters = 0) {
    this.#characters = characters;
  }

  /** Whether a message at a time, integer microseconds from bar 1 beat 1, still belongs to it. */
  reachesTo(take: LiveTake, atUs: number): boolean {
    const { log, commands, timeline } = take;
    const { passages, tempo, phrase } = timeline.plan;
    const characters = this.#characters + CHARACTERS_A_MESSAGE * log.count;
    return (
      log.count < SHARE * MOST_MESSAGES &&
      passages.length < SHARE * MOST_PASSAGES &&
      tempo.changes.length < SHARE * MOST_TEMPOS &&
      commands.count < SHARE * MOST_IN_LIST &&
      hasRoom({ passages, tempo }, phrase, atUs, characters)
    );
  }
}
