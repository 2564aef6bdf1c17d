import { GENERAL_MIDI } from '../kit/built-in-kits';
import { padFor } from '../kit/pad-for';
import { passageSpan, type PassageSpan, type Plan } from '../match/plan';
import type { TimedNote } from '../match/timed-note';
import { timedNotes } from '../match/timed-notes';
import { partialOnsets, pickupNotes } from '../phrase/layers/expand';
import { realignment } from '../phrase/layers/realignment';
import type { Phrase } from '../phrase/model/phrase';
import {
  meterEvent,
  midiFileBytes,
  tempoEvent,
  textEvent,
  type MidiEvent,
} from '../take/midi-bytes';
import { COUNT_IN, layerMark } from '../take/midi-marks';
import { USUAL_VELOCITIES } from '../phrase/model/level';
import { beats, type Beats } from '../time/beats';
import { steadyTempo } from '../time/tempo';
import { stickingLyric } from './sticking-lyric';
import { cycleMark, gridText, PICKUP } from './written-marks';

export interface PhraseMidiOptions {
  /** 1-based, one after the other; the last layer unless given. */
  readonly layers?: readonly number[];
  /** Of each layer; until cycle and bar line meet again unless given. */
  readonly bars?: number | undefined;
}

/** Whole for partials of every tuplet up to 10 and of 12: 5040 = lcm(5, 7, 9, 16). */
const TICKS_A_QUARTER = 5040;
/** Channel 10 is percussion's (General MIDI). */
const NOTE_ON = 0x99;
const NOTE_OFF = 0x89;
/** What RP-001's companion, MIDI 1.0, sends where a release has no velocity of its own. */
const RELEASE = 64;

/**
 * A phrase as a Standard MIDI File: one layer, or several in turn. Notes have General MIDI's percussion keys and the
 * usual velocities of their levels, lie where they sound (swung, grace notes ahead of their main note), and carry the hand
 * that strikes them as a lyric. What sounds before the first downbeat stands in a bar of its own, marked as the count-in;
 * markers say where layers and cycles begin. A foot splash, which General MIDI has no key for, is written as the pedal.
 *
 * @throws RangeError when the phrase has no such layer, or the bars are no whole number from 1.
 * @example midiOfPhrase(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value).subarray(0, 14) // => Uint8Array.of(77, 84, 104, 100, 0, 0, 0, 6, 0, 0, 0, 1, 19, 176)
 */
export function midiOfPhrase(
  phrase: Phrase,
  { layers = [phrase.layers.length], bars }: PhraseMidiOptions = {},
): Uint8Array {
  const { plan, endBar } = planOf(phrase, layers, bars);
  const { meter, tempoBpm } = phrase;
  const ticksPerBeat = meter.quartersPerBeat.mul(TICKS_A_QUARTER);
  const endBeat = beats((endBar - 1) * meter.beatsPerBar);
  const due = timedNotes(plan, plan.tempo.usAt(endBeat)).filter(({ note }) =>
    note.onset.lt(endBeat),
  );
  const [first] = due;
  const beforeBar1 = first ? Math.max(0, -beatOf(first, plan)) : 0;
  const leadBars = Math.ceil(beforeBar1 / meter.beatsPerBar);
  const tickAt = (beat: Beats) =>
    beat
      .add(leadBars * meter.beatsPerBar)
      .mul(ticksPerBeat)
      .round()
      .valueOf();
  const places: Places = { plan, endBeat, tickAt };
  const endTick = tickAt(endBeat);
  const events = [
    textEvent(0, 'name', phrase.title),
    meterEvent(0, meter),
    tempoEvent(0, Math.round(60e6 / (tempoBpm * meter.quartersPerBeat.valueOf()))),
    ...(leadBars > 0 ? [textEvent(0, 'marker', COUNT_IN)] : []),
    ...plan.passages.flatMap((_, index) => marksOf(passageSpan(plan, index), places)),
    ...noteEvents(due, places, endTick),
  ];
  return midiFileBytes(TICKS_A_QUARTER, events, endTick);
}

interface Places {
  readonly plan: Plan;
  readonly endBeat: Beats;
  readonly tickAt: (beat: Beats) => number;
}

/** The layers one after the other, and the bar (1-based) at which it is over. */
function planOf(phrase: Phrase, layers: readonly number[], bars: number | undefined) {
  let endBar = 1;
  const passages = layers.map((layer) => {
    const fromBar = endBar;
    endBar += bars ?? realignment(phrase, layer).bars;
    return { fromBar, layer };
  });
  if (!Number.isSafeInteger(endBar) || endBar <= passages.length)
    throw new RangeError(`expected whole bars from 1, got ${bars}`);
  const plan: Plan = { phrase, passages, tempo: steadyTempo(phrase.tempoBpm), windows: {} };
  return { plan, endBar };
}

/** How far ahead of its onset a note is due, in beats: a grace note. */
const leadOf = ({ note, timeUs }: TimedNote, { tempo }: Plan): number =>
  ((tempo.usAt(note.onset) - timeUs) * tempo.bpmAt(note.onset)) / 60e6;

/** Where a note sounds, in beats from bar 1 beat 1. */
const beatOf = (due: TimedNote, plan: Plan): number => due.note.onset.valueOf() - leadOf(due, plan);

/** Where a layer, its pickup and each of its cycles begin, and how its beat is divided. */
function marksOf(passage: PassageSpan, { plan, endBeat, tickAt }: Places): MidiEvent[] {
  const { layer, from, to = endBeat, shape } = passage;
  const { phrase } = plan;
  const mark = (beat: Beats, text: string) => textEvent(tickAt(beat), 'marker', text);
  const onsetOf = partialOnsets(phrase, layer);
  const pickup = pickupNotes(phrase, layer)[0];
  const marks = [
    ...(pickup ? [mark(from.add(pickup.onset), PICKUP)] : []),
    mark(from, layerMark(layer, phrase.layers[layer - 1]!.name)),
    textEvent(tickAt(from), 'text', gridText(shape)),
  ];
  const start = Math.round(shape.startBeats.valueOf() * shape.subdivision);
  for (let cycle = 1; ; cycle++) {
    const partial = start + (cycle - 1) * shape.cyclePartials;
    const beat = from.add(onsetOf(partial));
    if (beat.gte(to)) return marks;
    if (partial >= 0) marks.push(mark(beat, cycleMark(cycle)));
  }
}

/** Notes on and off, a lyric ahead of those whose hand the drum does not tell. */
function noteEvents(due: readonly TimedNote[], places: Places, endTick: number): MidiEvent[] {
  const { plan, tickAt } = places;
  const perBeat = plan.phrase.meter.quartersPerBeat.valueOf() * TICKS_A_QUARTER;
  const struck = due
    .map((one) => {
      const lead = Math.round(leadOf(one, plan) * perBeat);
      return { note: one.note, tick: tickAt(one.note.onset) - lead };
    })
    .sort((a, b) => a.tick - b.tick);
  const off: MidiEvent[] = [];
  const on: MidiEvent[] = [];
  const nextOn = new Map<number, number>();
  for (const { note, tick } of struck.toReversed()) {
    const key = padFor(note.voice, GENERAL_MIDI)!.note;
    const until = Math.min(nextOn.get(key) ?? Infinity, endTick, tick + SHORT * TICKS_A_QUARTER);
    nextOn.set(key, tick);
    off.push({ tick: Math.max(tick + 1, until), bytes: [NOTE_OFF, key, RELEASE] });
    on.push({ tick, bytes: [NOTE_ON, key, USUAL_VELOCITIES[note.level]] });
    const lyric = stickingLyric(note);
    if (lyric !== undefined) on.push(textEvent(tick, 'lyric', lyric));
  }
  return [...off.reverse(), ...on.reverse()];
}

/** A drum is written as long as nothing else needs the key: a thirty-second at most. Chosen. */
const SHORT = 1 / 8;
