import type { Kit } from '../kit/kit';
import { padGroups } from '../kit/pad-groups';
import { padVoices } from '../kit/pad-voices';
import { layerStack } from '../phrase/layers/layer-stack';
import { realignment } from '../phrase/layers/realignment';
import { repeatCycles, stackTimeline } from '../phrase/layers/timeline';
import type { Phrase } from '../phrase/model/phrase';
import type { Voice } from '../phrase/model/voice';
import { FAULTS, MOST_GAP_US } from './strike-gaps';

/**
 * How far apart two notes may be written and still be played as near as strikes in a row are, beyond the widest gap of
 * those. Chosen, not measured: one early and one late by two spreads of an unsteady player (30 ms).
 */
const PLAYED_NEARER_US = 120_000;

/** Where a phrase may ask for each pad, in beats and ascending, by group of the kit's pads. */
export type PadBeats = readonly (readonly number[])[];

/**
 * All layers laid on one another, twice round, so that a change of layer asks for no more either: the end of a round is
 * followed by a beginning and, at each realignment, led over by any layer's pickup. Grace notes are part of their main
 * note.
 *
 * @example padBeats(checkPhrase({ title: 'Slip', meter: '2/4', tempoBpm: 90, subdivision: 1, grouping: 'R -', layers: [{ name: 'Sticking' }] }).value, { pads: [{ note: 38, group: 'snare', voice: 'snare' }] }) // => [[0, 2]]
 */
export function padBeats(phrase: Phrase, kit: Pick<Kit, 'pads'>): PadBeats {
  const layers = phrase.layers.map((_, i) => {
    const stack = layerStack(phrase, i + 1);
    const cycleBeats = phrase.cycle / stack.grid.subdivision;
    const roundBeats = realignment(phrase, i + 1).bars * phrase.meter.beatsPerBar;
    return { stack, cycleBeats, roundBeats, beats: 2 * repeatCycles(stack) * cycleBeats };
  });
  const beatsLong = Math.max(...layers.map(({ beats }) => beats));
  const found = padGroups(kit).names.map((name) => {
    const pads = kit.pads.filter(({ group }) => group === name);
    return { voices: new Set(pads.flatMap(padVoices)), beats: new Set<number>() };
  });
  const add = (voice: Voice, beat: number) => {
    for (const { voices, beats } of found) if (voices.has(voice)) beats.add(round(beat));
  };
  const rounds = new Set(layers.map(({ roundBeats }) => roundBeats));
  for (const { stack, cycleBeats } of layers) {
    const cycles = Math.min(Math.ceil(beatsLong / cycleBeats), stack.cyclesInReach);
    for (const { voice, beat, cycle, graceStep } of stackTimeline(stack, 0, cycles).notes) {
      if (graceStep > 0) continue;
      add(voice, beat);
      if (cycle > 0) continue;
      for (const roundBeats of rounds)
        for (let from = roundBeats; from <= beatsLong; from += roundBeats) add(voice, from + beat);
    }
  }
  return found.map(({ beats }) => [...beats].sort((a, b) => a - b));
}

/** One place has one number, whichever layer tells it. */
const round = (beat: number): number => Math.round(beat * 1e6) / 1e6;

/**
 * The most notes of a pad, at `quickestBpm` or slower, that sound like strikes in a row when a player makes FAULTS of
 * them: each fault is a stroke on the pad that is not written there, and leads over from one note to the next. What lies
 * between on other pads does not part them, since it may be missed or be that fault.
 *
 * @example longestRow([0, 0.25, 4], 90) // => 2
 */
export function longestRow(beats: readonly number[], quickestBpm: number): number {
  const nearBeats = ((MOST_GAP_US + PLAYED_NEARER_US) * quickestBpm) / 60e6;
  const faultsTo = (i: number) => Math.ceil((beats[i]! - beats[i - 1]!) / nearBeats) - 1;
  let longest = 0;
  let from = 0;
  let faults = 0;
  for (let i = 0; i < beats.length; i++) {
    if (i > 0) faults += faultsTo(i);
    while (faults > FAULTS) faults -= faultsTo(++from);
    longest = Math.max(longest, i - from + 1);
  }
  return longest;
}
