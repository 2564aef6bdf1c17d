import type { Beats } from '../../time/beats';
import { lcm } from '../../time/whole';
import { xml, xmlText } from '../mei/xml';
import { eventsOf, STAFF_VOICES } from '../score/score';
import type { CycleBracket, Score, ScoreBar, StaffEvent, StaffVoice } from '../score/score';
import { xmlGroup, xmlSilentBar, type XmlVoice } from './xml-notes';

/** Divisions of a quarter note: whole for every tuplet up to 10 in quarters, as in the MIDI files. */
const DIVISIONS = 5040;

/** Divisions of a quarter note that hold every partial of these scores. @example divisionsFor([]) // => 5040 */
export const divisionsFor = (scores: readonly Score[]): number =>
  scores.reduce((divisions, score) => lcm(divisions, partialOf(score).d), DIVISIONS);

/** A partial in quarters, in lowest terms. */
function partialOf({ meter, subdivision }: Score): { readonly n: number; readonly d: number } {
  const { n, d }: Beats = meter.quartersPerBeat.div(subdivision);
  return { n: Number(n), d: Number(d) };
}

export const partialDivisions = (score: Score, divisions: number): number =>
  (partialOf(score).n * divisions) / partialOf(score).d;

/** What is in a bar after its head: both voices, with the brackets of the cycles over the first that is written. */
export function xmlVoices(score: Score, bar: ScoreBar, divisions: number): string {
  const each = partialDivisions(score, divisions);
  const voices = STAFF_VOICES.filter((voice) => bar.voices[voice].length > 0);
  const whole = bar.partials * each;
  if (voices.length === 0)
    return directionsAt(bracketEnds(score, bar, []), undefined, each) + xmlSilentBar(whole);
  const back = `\n${xml('backup', {}, xml('duration', {}, String(whole)))}`;
  return voices
    .map((voice, v) => {
      const events = eventsOf(bar, voice);
      const of: XmlVoice = {
        voice,
        partialDivisions: each,
        hasClosedSigns: hasOpenHats(score),
        isAlone: voices.length === 1,
        rows: rowsOf(bar, voice),
      };
      const ends = v === 0 ? bracketEnds(score, bar, events) : [];
      const notes = bar.voices[voice].flatMap((group) => xmlGroup(group, of));
      return notes
        .map((inside, i) => directionsAt(ends, events[i], each) + `\n${inside.join('\n')}`)
        .join('');
    })
    .join(back);
}

export const hasOpenHats = (score: Score): boolean =>
  score.bars.some((bar) =>
    STAFF_VOICES.some((voice) =>
      eventsOf(bar, voice).some(({ notes }) => notes.some((note) => note.voice === 'hi-hat open')),
    ),
  );

/**
 * Sticking and count under an event: of all that begin at once, the first that is struck carries them, since readers
 * were seen to drop what stands under rests.
 */
function rowsOf(bar: ScoreBar, voice: StaffVoice): XmlVoice['rows'] {
  const events = STAFF_VOICES.flatMap((each) =>
    eventsOf(bar, each).map(({ partial, notes }) => ({
      partial,
      each,
      isStruck: notes.length > 0,
    })),
  );
  return ({ partial }) => {
    const here = events.filter((event) => event.partial === partial);
    const carrier = here.find(({ isStruck }) => isStruck) ?? here[0]!;
    const at = partial - bar.partial;
    return carrier.each === voice ? [bar.stickings[at], bar.counts[at]] : [];
  };
}

/** An end of a bracket, ahead of an event or so many partials after its onset. */
interface BracketEnd {
  readonly at: StaffEvent | undefined;
  readonly after: number;
  readonly bracket: CycleBracket;
  readonly type: 'start' | 'stop';
}

/**
 * The ends of the brackets in a bar. A bracket stops ahead of the last event of its cycle: where it stopped at the
 * end of a bar, readers were seen to draw it on, and one moved the second voice by a bar.
 */
function bracketEnds(
  { brackets }: Score,
  bar: ScoreBar,
  events: readonly StaffEvent[],
): readonly BracketEnd[] {
  if (brackets.every(({ from, to }) => to - from < 2)) return [];
  const end = bar.partial + bar.partials;
  const under = (partial: number) =>
    events.findLast((event) => event.partial <= partial) ?? events[0];
  return brackets.flatMap((bracket) => {
    const { from, to } = bracket;
    const found: BracketEnd[] = [];
    if (from >= bar.partial && from < end) {
      const at = under(from);
      found.push({ at, after: from - (at?.partial ?? bar.partial), bracket, type: 'start' });
    }
    if (to > bar.partial && to <= end) {
      const last = under(to - 1);
      const isWithin = last === undefined || last.partial >= from;
      const at = isWithin ? last : under(from);
      const after = isWithin ? 0 : from - (at?.partial ?? bar.partial);
      found.push({ at, after, bracket, type: 'stop' });
    }
    return found;
  });
}

function directionsAt(
  ends: readonly BracketEnd[],
  event: StaffEvent | undefined,
  partialDivisions: number,
): string {
  return ends
    .filter(({ at }) => at === event)
    .map(({ after, bracket, type }) => {
      const offset = after > 0 ? xml('offset', {}, String(after * partialDivisions)) : '';
      const lineEnd = bracket.isCut && type === 'stop' ? 'none' : 'down';
      const line = direction(
        xml('bracket', { type, number: 1, 'line-end': lineEnd, 'line-type': 'solid' }),
        offset,
      );
      return type === 'stop'
        ? line
        : direction(xml('words', {}, xmlText(`cycle ${bracket.cycle}`)), offset) + line;
    })
    .join('');
}

/** A direction over the staff. */
export const direction = (type: string, ...rest: readonly string[]): string =>
  `\n${xml('direction', { placement: 'above' }, xml('direction-type', {}, type), ...rest)}`;
