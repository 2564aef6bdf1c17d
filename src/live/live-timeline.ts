import {
  cycleSpan,
  isCountIn,
  isSilentIn,
  passageSpan,
  type PassageSpan,
  type Plan,
} from '../match/plan';
import type { TimedNote } from '../match/timed-note';
import { inTimeOrder, MOST_AHEAD_US, notesOfCycles } from '../match/timed-notes';
import { cyclesToRealign } from '../phrase/layers/realignment';
import type { Phrase } from '../phrase/model/phrase';
import type { Voice } from '../phrase/model/voice';
import { syllable } from '../phrase/model/syllable';
import { beats, type Beats } from '../time/beats';
import { tempoMap, type TempoChange } from '../time/tempo';
import type { Passage } from '../phrase/model/passage';
import type { WindowSettings } from '../match/hit-window';
import { accompanimentOf } from './accompaniment';
import type { SilentBars } from '../time/silent-bars';
import type { LaneCycle, LaneMark } from './lane-feed';
import { markAt } from './mark-at';
import { layerNext, returnNext, waitNext, type NextPassages } from './next-passages';

/** One cycle that has been laid out, and where its notes begin in the list of notes. */
interface LaidCycle extends LaneCycle {
  readonly passage: number;
  readonly cycle: number;
  readonly from: Beats;
  readonly firstNote: number;
  /** The index after its last note, as it was laid out. */
  readonly endNote: number;
  readonly firstAccompanying: number;
}

export interface TimelineStart {
  readonly phrase: Phrase;
  readonly passages: readonly Passage[];
  readonly tempos: readonly TempoChange[];
  readonly windows: WindowSettings;
  readonly countInBars: number;
  /** Whose last layer the app plays, but for the notes that are due; it is laid out in cycles as they are. */
  readonly whole?: Phrase | undefined;
  readonly silentBars?: SilentBars | undefined;
}

/** Another passage that is decided. */
export interface PassageChange {
  readonly passage: Passage;
  /** Where it takes over. */
  readonly from: Beats;
  /** The first note that is laid out anew. */
  readonly firstNote: number;
}

/**
 * What is due, cycle by cycle, as far ahead as is asked for; and the plan it follows, which may
 * change while playing: another tempo from a cycle's start, another layer from a realignment, the same one where the
 * player has it, or after a count-in. What was laid out beyond such a change is laid out again.
 */
export class LiveTimeline {
  readonly notes: TimedNote[] = [];
  /** What the app plays beside them, in time order but for grace notes. */
  readonly accompaniment: TimedNote[] = [];
  readonly marks: LaneMark[] = [];
  readonly cycles: LaidCycle[] = [];
  readonly countInBars: number;
  readonly #phrase: Phrase;
  readonly #windows: WindowSettings;
  readonly #whole: Phrase | undefined;
  readonly #silentBars: SilentBars | undefined;
  #plan: Plan;
  #passage: PassageSpan;
  #nextCycle = 1;
  #markBeat: Beats;

  constructor(start: TimelineStart) {
    this.#phrase = start.phrase;
    this.#windows = start.windows;
    this.#whole = start.whole;
    this.#silentBars = start.silentBars;
    this.countInBars = start.countInBars;
    this.#plan = this.#planOf(start.passages, start.tempos);
    this.#passage = passageSpan(this.#plan, 0);
    this.#markBeat = beats(-start.countInBars * start.phrase.meter.beatsPerBar);
  }

  get plan(): Plan {
    return this.#plan;
  }

  /** What is laid out so far is played on. */
  get voices(): readonly Voice[] {
    return [...new Set(this.notes.map(({ note }) => note.voice))];
  }

  /** When the count-in begins, integer microseconds from bar 1 beat 1. */
  get startUs(): number {
    const { beatsPerBar } = this.#phrase.meter;
    return this.#plan.tempo.usAt(beats(-this.countInBars * beatsPerBar));
  }

  /** Lays out whole cycles until they cover `untilUs`, and with them the pickup of a passage that begins later. */
  extendTo(untilUs: number): void {
    while (this.#laidToUs() <= untilUs) this.#layNextCycle();
  }

  /** Whatever is due before this is laid out, but for grace notes. */
  #laidToUs(): number {
    const last = this.cycles.at(-1);
    if (!last) return -Infinity;
    const { notesTo } = this.#passage;
    return notesTo ? Math.min(last.endUs, this.#plan.tempo.usAt(notesTo)) : last.endUs;
  }

  /** Every note due up to and including `untilUs`, in time order. */
  notesUpTo(untilUs: number): readonly TimedNote[] {
    this.extendTo(untilUs + MOST_AHEAD_US);
    return this.notes.filter(({ timeUs }) => timeUs <= untilUs).sort(inTimeOrder);
  }

  /** Ends with the first `count` notes, and with the cycle of the last: nobody played to the others. */
  endAfter(count: number): void {
    const lastUs = this.notes[count - 1]?.timeUs ?? 0;
    const last = this.cycles.findIndex(({ endUs, endNote }) => endUs > lastUs && endNote >= count);
    if (last >= 0 && last + 1 < this.cycles.length) this.#layAgainFrom(last + 1);
    this.#cutNotesTo(count);
  }

  /** The index after the last note of cycle `at` (0-based, of all laid out), also where notes were cut. */
  endNote(at: number): number {
    return this.cycles[at + 1]?.firstNote ?? this.cycles[at]!.endNote;
  }

  /**
   * Another tempo from the first cycle start at or after `fromUs`, and not before the click is back where silent bars begin
   * anew with the tempo; that cycle, whose notes are laid out anew.
   */
  changeTempo(bpm: number, fromUs: number): LaidCycle {
    const heardUs = this.#silentBars?.anewAtTempo ? this.#clickFrom(fromUs) : fromUs;
    this.extendTo(heardUs);
    if (this.cycles.at(-1)!.startUs < heardUs) this.#layNextCycle();
    const at = this.cycles.findIndex((cycle) => cycle.startUs >= heardUs);
    const cycle = this.cycles[at]!;
    const tempos = this.#plan.tempo.changes.filter(
      (change) => change.fromBeat.compare(cycle.from) < 0,
    );
    this.#plan = this.#planOf(this.#plan.passages, [...tempos, { fromBeat: cycle.from, bpm }]);
    this.#layAgainFrom(at);
    if (this.#silentBars?.anewAtTempo) this.#markAgainFrom(this.#barLineOf(cycle.from));
    return cycle;
  }

  /** The first time at or after `fromUs` that lies in a bar with a click, or at its beginning. */
  #clickFrom(fromUs: number): number {
    this.extendTo(fromUs);
    let bar = markAt(this.marks, fromUs)?.bar ?? 1;
    if (!isSilentIn(this.#plan, bar)) return fromUs;
    while (isSilentIn(this.#plan, bar)) bar++;
    return this.#plan.tempo.usAt(beats((bar - 1) * this.#phrase.meter.beatsPerBar));
  }

  #barLineOf(beat: Beats): Beats {
    const { beatsPerBar } = this.#phrase.meter;
    return beats(Math.floor(beat.valueOf() / beatsPerBar) * beatsPerBar);
  }

  /** Another layer, by `layerNext`. */
  changeLayer(layer: number, fromUs: number): { readonly bar: number; readonly firstNote: number } {
    const { passage, firstNote } = this.#follow(layerNext(this.#plan, layer, fromUs), fromUs);
    return { bar: passage.fromBar, firstNote };
  }

  /** The target waits for a player who is so many partials late, early negative, by `waitNext`. */
  waitForPlayer(partials: number, fromUs: number): PassageChange {
    return this.#follow(waitNext(this.#plan, partials, fromUs), fromUs);
  }

  /** The player is brought back, by `returnNext`: with as long a count-in as the take had, a bar at least. */
  bringBack(fromUs: number): PassageChange {
    const bars = Math.max(1, this.countInBars);
    return this.#follow(returnNext(this.#plan, bars, fromUs), fromUs);
  }

  #planOf(passages: readonly Passage[], tempos: readonly TempoChange[]): Plan {
    return {
      phrase: this.#phrase,
      passages,
      tempo: tempoMap(tempos),
      windows: this.#windows,
      silentBars: this.#silentBars,
    };
  }

  #layNextCycle(): void {
    const span = cycleSpan(this.#passage, this.#nextCycle);
    if (!span) {
      this.#passage = passageSpan(this.#plan, this.#passage.index + 1);
      this.#nextCycle = 1;
      this.#layNextCycle();
      return;
    }
    const { tempo } = this.#plan;
    const { meter } = this.#phrase;
    const { subdivision } = this.#passage.shape;
    const of = cyclesToRealign(this.#phrase, meter.beatsPerBar * subdivision);
    const notes = notesOfCycles(this.#plan, this.#passage, this.#nextCycle, 1);
    this.cycles.push({
      passage: this.#passage.index,
      cycle: this.#nextCycle,
      from: span.from,
      startUs: tempo.usAt(span.from),
      endUs: tempo.usAt(span.to),
      number: ((this.#nextCycle - 1) % of) + 1,
      of,
      firstNote: this.notes.length,
      endNote: this.notes.length + notes.length,
      firstAccompanying: this.accompaniment.length,
    });
    this.notes.push(...notes);
    if (this.#whole)
      this.accompaniment.push(
        ...accompanimentOf(this.#plan, this.#whole, this.#passage, this.#nextCycle),
      );
    this.#markUpTo(span.to, subdivision);
    this.#nextCycle++;
  }

  /** Forgets the layout from a cycle on; the next `extendTo` makes it afresh. */
  #layAgainFrom(at: number): void {
    const first = this.cycles[at]!;
    this.#cutNotesTo(first.firstNote);
    this.accompaniment.length = first.firstAccompanying;
    this.cycles.length = at;
    this.#passage = passageSpan(this.#plan, first.passage);
    this.#nextCycle = first.cycle;
    this.#markAgainFrom(first.from);
  }

  /** Takes other passages for those beyond the first that are the same, and lays out again what ends or begins there. */
  #follow({ same, passages }: NextPassages, fromUs: number): PassageChange {
    this.extendTo(fromUs);
    const old = passageSpan(this.#plan, same - 1);
    this.#plan = this.#planOf(passages, this.#plan.tempo.changes);
    const now = passageSpan(this.#plan, same - 1);
    const ends = [old.to, old.notesTo, now.to, now.notesTo].flatMap((end) => end ?? []);
    const cut = ends.reduce((a, b) => (b.compare(a) < 0 ? b : a));
    const firstCut = this.notes.findIndex(({ note }) => note.onset.compare(cut) >= 0);
    const firstNote = firstCut < 0 ? this.notes.length : firstCut;
    const cutUs = this.#plan.tempo.usAt(cut);
    const at = this.cycles.findIndex(({ endUs }) => endUs >= cutUs);
    if (at < 0) this.#passage = passageSpan(this.#plan, this.#passage.index);
    else {
      this.#layAgainFrom(at);
      this.#layNextCycle();
    }
    return { passage: passages[same]!, from: now.to!, firstNote };
  }

  /** Forgets the marks from a place on that has one; the next cycle makes them afresh. */
  #markAgainFrom(beat: Beats): void {
    const fromUs = this.#plan.tempo.usAt(beat);
    const keep = this.marks.findIndex((mark) => mark.timeUs >= fromUs);
    if (keep >= 0) this.marks.length = keep;
    this.#markBeat = beat;
  }

  #cutNotesTo(count: number): void {
    this.notes.length = Math.min(this.notes.length, count);
  }

  #markUpTo(end: Beats, subdivision: number): void {
    const { meter } = this.#phrase;
    const barPartials = meter.beatsPerBar * subdivision;
    const from = this.#markBeat;
    const count = Math.max(0, Math.ceil(end.sub(from).mul(subdivision).valueOf()));
    // The marks of another subdivision may have ended between two of this one.
    const parts = Number(from.s * from.n) * subdivision;
    const denominator = Number(from.d);
    const first = Math.round(parts / denominator);
    let { isSilent = false, isCountIn: countsIn = false } = this.marks.at(-1) ?? {};
    for (let i = 0; i < count; i++) {
      const partial = first + i;
      const bar = Math.floor(partial / barPartials) + 1;
      if (bar !== this.marks.at(-1)?.bar) {
        isSilent = isSilentIn(this.#plan, bar);
        countsIn = bar < 1 || isCountIn(this.#plan, bar);
      }
      const inBar = partial - (bar - 1) * barPartials;
      this.marks.push({
        timeUs: this.#plan.tempo.usAtPart(parts + i * denominator, denominator * subdivision),
        kind: inBar === 0 ? 'bar' : inBar % subdivision === 0 ? 'beat' : 'partial',
        bar,
        label: syllable(meter, subdivision, partial),
        isSilent,
        isCountIn: countsIn,
      });
    }
    this.#markBeat = from.add(beats(count, subdivision));
  }
}

/** One layer (1-based) of a phrase over and over at one tempo, without a count-in: what plays by itself and is not judged. */
export const plainTimeline = (phrase: Phrase, layer: number, bpm: number): LiveTimeline =>
  new LiveTimeline({
    phrase,
    passages: [{ fromBar: 1, layer }],
    tempos: [{ fromBeat: beats(0), bpm }],
    windows: {},
    countInBars: 0,
  });
