import type { StruckPlace } from '../../src/capture/consensus';
import type { Transcription } from '../../src/capture/transcribe';
import { heardFree } from '../capture/heard-free';
import {
  patternOf,
  randomPlayings,
  recover,
  soundOf,
  type Player,
  type Playing,
  type Recovered,
} from '../capture/played-rounds';
import { ClaimCount, type Claim } from './claim';

/**
 * What capture says of `count` random phrases that a player plays to a click: what it is sure of, and which notes it
 * names. A note that came in some
 * rounds only is written down wrongly when the phrase has it in half of the cycles or fewer, and a stroke left out
 * wrongly when it has it in more.
 */
export function captureClaims(count: number, seed: number, player: Player): readonly Claim[] {
  const subdivision = new ClaimCount('sure of the subdivision');
  const cycle = new ClaimCount('sure of the cycle');
  const notes = new ClaimCount('sure of the notes');
  const levels = new ClaimCount('sure of the levels');
  const inSomeRounds = new ClaimCount('writes down what came now and then');
  const leftOut = new ClaimCount('names a stroke that is left out');
  for (const playing of randomPlayings(count, seed)) {
    const recovered = recover(playing, playing.tempoBpm, player);
    const { captured } = recovered;
    if (!captured) continue;
    if (isSure(captured, 'subdivision')) subdivision.add(!hasGrid(captured, playing));
    if (isSure(captured, 'cycle')) cycle.add(!recovered.cycle);
    if (isSure(captured, 'notes')) notes.add(!recovered.voices);
    // Of wrong notes the levels cannot be right.
    if (isSure(captured, 'levels') && recovered.voices) levels.add(!recovered.levels);
    for (const place of captured.inSomeRounds)
      inSomeRounds.add(timesThere(place, recovered, playing) <= 0.5);
    for (const place of captured.leftOut) leftOut.add(timesThere(place, recovered, playing) > 0.5);
  }
  return [subdivision, cycle, notes, levels, inSomeRounds, leftOut].map(({ claim }) => claim);
}

/** The same without a click, of which nothing but the cycle is ever sure. */
export function freeCaptureClaims(count: number, seed: number, player: Player): readonly Claim[] {
  const cycle = new ClaimCount('sure of the cycle, no click');
  for (const playing of randomPlayings(count, seed)) {
    const heard = heardFree(playing, player);
    if (heard.sure.has('cycle')) cycle.add(!heard.cycle);
  }
  return [cycle.claim];
}

/** More than any of the phrases takes until it meets the captured cycle again. */
const CYCLES_LOOKED_AT = 48;

const isSure = ({ findings }: Transcription, about: 'subdivision' | 'cycle' | 'notes' | 'levels') =>
  findings.some((one) => one.about === about && one.sure);

/** As fine as written, or coarser where that holds every note. */
const hasGrid = ({ pattern }: Transcription, { phrase, layer }: Playing): boolean =>
  patternOf(phrase, layer).subdivision % pattern.subdivision === 0;

/** In what share of the captured cycles the phrase has a stroke where capture names one. */
function timesThere(
  { partial, voice }: StruckPlace,
  { captured }: Recovered,
  { phrase, layer }: Playing,
): number {
  const { pattern } = captured!;
  const written = soundOf(patternOf(phrase, layer), phrase);
  const note = { partial, voice, limb: 'R', level: 'tap', graces: [] } as const;
  const named = soundOf({ ...pattern, notes: [note] }, phrase);
  const beats = (pattern.cyclePartials / pattern.subdivision) * CYCLES_LOOKED_AT;
  const there = new Set(written.notes(beats).map((one) => one.voice));
  const places = named.notes(beats);
  return places.filter((one) => there.has(one.voice)).length / places.length;
}
