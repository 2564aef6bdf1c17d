import type { Kit } from '../../kit/kit';
import type { LiveTake } from '../../live/live-take';
import { MOST_IN_LIST, MOST_MESSAGES, MOST_PASSAGES, MOST_TEMPOS } from '../../take/take-file';
import { hasRoom } from '../../take/take-length';

/** As many characters as a message has in a file at least: "[0,128,0,0],". */
const CHARACTERS_A_MESSAGE = 12;
/** What a list keeps free for what comes until the take has ended. */
const SHARE = 0.9;

/** Said where a take was ended since it would not have been. */
export const TAKE_FULL =
  'The take has ended by itself: it is as long as a take can be that opens again as a file. Where little is struck, that is sooner. What was struck is kept; start again to go on.';

/**
 * How far a take may go on, so that the file that it is saved as can be opened again. One that is played needs no more
 * than hours allow; one in which nothing is struck any more comes to an end.
 */
export class TakeRoom {
  readonly #charactersOf: (take: LiveTake) => number;
  #kit: Kit | undefined;
  #characters = 0;

  /** @param charactersOf the file of a take without messages; asked again where the kit is another one */
  constructor(charactersOf: (take: LiveTake) => number = () => 0) {
    this.#charactersOf = charactersOf;
  }

  /** Whether a message at a time, integer microseconds from bar 1 beat 1, still belongs to it. */
  reachesTo(take: LiveTake, atUs: number): boolean {
    const { log, commands, timeline, kit } = take;
    const { passages, tempo, phrase } = timeline.plan;
    if (kit !== this.#kit) this.#characters = this.#charactersOf(take);
    this.#kit = kit;
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
