import { countingBars } from '../score/counting-bars';
import type { JudgedNote } from '../score/judged-note';
import type { Judgement } from '../score/judge';
import { TrialWalk, type LayerTrial, type TrialOptions } from '../score/trials';
import { LayerTallies } from './layer-rows';
import type { LiveTake } from './live-take';

/** What the trial that goes on has come to. */
interface TrialLook {
  readonly trial: LayerTrial | undefined;
  /** The same, or the one before, as it was when the notes were due that the figures may speak of. */
  readonly trialOfSeen: LayerTrial | undefined;
  /** The trial's notes that the figures may speak of, bars that do not count aside. */
  readonly counted: readonly JudgedNote[];
  readonly tallies: LayerTallies;
}

/** Whether a bar, 1-based, counts. */
type CountsIn = (bar: number) => boolean;

/** Strokes that come later than this after theirs are counted from the beginning again. Chosen, not measured. */
const SETTLED_AFTER_US = 1_000_000;

/**
 * The trial that goes on, looked at after every cycle. What was due a while ago is carried from look to look, so that a
 * look costs what has come since, however long the take; where anything of it has changed, all is counted anew.
 */
export class RunningTrial {
  readonly #take: LiveTake;
  #basis = '';
  #plan: unknown;
  #walk: TrialWalk;
  #tallies = new LayerTallies();
  /** Notes of the walk's last trial in the tallies. */
  #tallied: { readonly trial: LayerTrial | undefined; readonly notes: number } = NOTHING;
  /** The take's notes in the walk. */
  #settled = 0;

  constructor(take: LiveTake) {
    this.#take = take;
    this.#walk = new TrialWalk(take.timeline.plan, {});
  }

  /** When the notes up to index `to` are over, of which the figures may speak of those up to `seen`. */
  look(to: number, seen: number, options: TrialOptions): TrialLook {
    const take = this.#take;
    const changed = take.firstChangedNote();
    const basis = JSON.stringify(options);
    const { plan } = take.timeline;
    const settledUs = take.noteTimeUs[Math.min(to, seen) - 1]! - SETTLED_AFTER_US;
    const settled = this.#settled;
    const isFirm =
      settled === 0 || (changed >= settled && take.noteTimeUs[settled - 1]! < settledUs);
    if (!isFirm || basis !== this.#basis || plan !== this.#plan) {
      this.#basis = basis;
      this.#plan = plan;
      this.#walk = new TrialWalk(plan, options);
      this.#tallies = new LayerTallies();
      this.#tallied = NOTHING;
      this.#settled = 0;
    }
    // One before, which may be nearer to an extra stroke.
    const from = Math.max(0, this.#settled - 1);
    const judgement = take.judgement(from, to);
    const countsIn = countingBars(plan, options.leftOutBars);
    this.#settle(judgement, from, settledUs, countsIn);

    const next = this.#settled - from;
    const walk = this.#walk.fork();
    walk.add(judgement, next);
    const trial = walk.trials.at(-1);
    const notes = trial?.judgement.notes ?? [];
    const due = notes.slice(0, Math.max(0, notes.length - (to - seen)));
    const counted = due.filter(({ due: { note } }) => countsIn(note.bar));
    return {
      trial,
      trialOfSeen: seen < to ? this.#trialBefore(judgement, next, seen) : trial,
      counted,
      tallies: this.#talliesOf(trial, due, countsIn),
    };
  }

  /** Takes the notes along that are due before a time. */
  #settle(judgement: Judgement, from: number, untilUs: number, countsIn: CountsIn): void {
    const { noteTimeUs } = this.#take;
    let settled = this.#settled;
    while (noteTimeUs[settled]! < untilUs) settled++;
    this.#walk.add(judgement, this.#settled - from, settled - from);
    this.#settled = settled;
    const trial = this.#walk.trials.at(-1);
    const notes = trial?.judgement.notes ?? [];
    if (trial !== this.#tallied.trial) {
      this.#tallies = new LayerTallies();
      this.#tallied = { trial, notes: 0 };
    }
    tally(this.#tallies, notes.slice(this.#tallied.notes), countsIn);
    this.#tallied = { trial, notes: notes.length };
  }

  /** The trial as it was before note `seen` was due. */
  #trialBefore({ notes, extras }: Judgement, next: number, seen: number): LayerTrial | undefined {
    const { timeUs: endUs } = this.#take.timeline.notes[seen]!;
    const walk = this.#walk.fork();
    walk.add(
      {
        notes: notes.filter(({ due }) => due.timeUs < endUs),
        extras: extras.filter(({ timeUs }) => timeUs < endUs),
      },
      next,
    );
    return walk.trials.at(-1);
  }

  #talliesOf(
    trial: LayerTrial | undefined,
    due: readonly JudgedNote[],
    countsIn: CountsIn,
  ): LayerTallies {
    const isSame = trial?.judgement.notes[0] === this.#tallied.trial?.judgement.notes[0];
    const tallies = isSame ? this.#tallies.fork() : new LayerTallies();
    tally(tallies, due.slice(isSame ? this.#tallied.notes : 0), countsIn);
    return tallies;
  }
}

const NOTHING = { trial: undefined, notes: 0 };

function tally(tallies: LayerTallies, notes: readonly JudgedNote[], countsIn: CountsIn): void {
  for (const note of notes) if (countsIn(note.due.note.bar)) tallies.add(note);
}
