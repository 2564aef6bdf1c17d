import type { Slip } from '../coach/place/slip';
import { wording } from '../coach/wording';
import { passageSpan } from '../match/plan';
import { markAt } from '../live/mark-at';
import type { Upcoming } from '../live/upcoming';
import { gridAt } from '../phrase/model/grid';
import type { TakeRun } from './takes/take-run';

/** What the screen says and offers while the place is lost. */
export type LostPlace = Omit<PlaceHelp, 'look'>;

/**
 * What is said while the place is lost, as soon as that is certain, and what can be done about it: the target waits for
 * the player, or the player is brought back. Nothing here happens at a stroke.
 */
export class PlaceHelp {
  readonly #run: TakeRun;
  readonly #announce: (changes: readonly Upcoming[]) => void;
  #slip: Slip | undefined = $state.raw();
  /** The slip for which something was chosen. */
  #answered: Slip | undefined = $state.raw();

  /** @param announce takes what is decided for the take */
  constructor(run: TakeRun, announce: (changes: readonly Upcoming[]) => void) {
    this.#run = run;
    this.#announce = announce;
  }

  /** By how much the phrase has slipped, which way and since when; undefined while the player is in place. */
  get sentence(): string | undefined {
    return this.#slip && sentenceOf(this.#run, this.#slip);
  }

  /** Whether there is something to choose: not once it was. */
  get isOffered(): boolean {
    return this.#slip !== undefined && this.#slip !== this.#answered;
  }

  /** Looks whether the place is lost. About ten times a second. */
  look(): void {
    const last = this.#run.take.place.slips.at(-1);
    const now = last?.toUs === undefined && last && !this.#isPast(last) ? last : undefined;
    if (now === this.#slip || (now && this.#slip && isSame(now, this.#slip))) return;
    this.#slip = now;
  }

  /** Whether the target has moved since, though nothing was heard of it yet: in a count-in nobody plays. */
  #isPast({ passage }: Slip): boolean {
    const { plan } = this.#run;
    const { to } = passageSpan(plan, passage);
    return to !== undefined && plan.tempo.usAt(to) <= this.#run.nowUs();
  }

  /** The target moves by the slip, so that what is played is right from there on. */
  waitForMe(): void {
    const slip = this.#slip;
    if (slip) this.#answer((run) => run.waitForPlayer(slip.partials));
  }

  /** The phrase begins again after a count-in. */
  bringMeBack(): void {
    this.#answer((run) => run.bringBack());
  }

  #answer(decide: (run: TakeRun) => readonly Upcoming[]): void {
    if (!this.isOffered) return;
    this.#answered = this.#slip;
    this.#announce(decide(this.#run));
  }
}

/** A slip that was found again by hearing everything anew. */
const isSame = (a: Slip, b: Slip): boolean =>
  a.fromUs === b.fromUs && a.partials === b.partials && a.passage === b.passage;

function sentenceOf({ plan, take }: TakeRun, slip: Slip): string {
  const { partials, repeats, fromUs, passage } = slip;
  const { marks } = take.timeline;
  const { subdivision } = gridAt(plan.phrase, plan.passages[passage]!.layer);
  const fromBar = Math.max(1, markAt(marks, fromUs)?.bar ?? 1);
  const facts = { partials, subdivision, fromBar, toBar: undefined, times: 1, repeats };
  return wording('lost place', facts).text;
}
