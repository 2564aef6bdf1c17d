import type { Beats } from '../../time/beats';
import { lcm } from '../../time/whole';
import { tellsClosed } from '../score/note-signs';
import { textElement, xml } from '../xml';
import { eventsOf, STAFF_VOICES } from '../score/score';
import type { CycleBracket, Score, ScoreBar, StaffEvent, StaffVoice } from '../score/score';
import { xmlGroup, xmlSilentBar, type XmlVoice } from './xml-group';

/** Divisions of a quarter note: whole for every tuplet up to 10 in quarters, as in the MIDI files. */
const DIVISIONS = 5040;

/** Divisions of a quarter note that hold every partial of these scores. @example quarterDivisions([]) // => 5040 */
export const quarterDivisions = (scores: readonly Score[]): number =>
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
  const back = `\n${xml('backup', {}, textElement('duration', whole))}`;
  return voices
    .map((voice, v) => {
      const events = eventsOf(bar, voice);
      const of: XmlVoice = {
        voice,
        partialDivisions: each,
        hasClosedSigns: tellsClosed(score),
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
  /** All of the bracket is under one event, where no line can be drawn. */
  readonly isAlone: boolean;
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
  const end = bar.partial + bar.partials;
  const under = (partial: number) =>
    events.findLast((event) => event.partial <= partial) ?? events[0];
  return brackets.flatMap((bracket): BracketEnd[] => {
    const { from, to } = bracket;
    const starts = from >= bar.partial && from < end;
    const stops = to > bar.partial && to <= end;
    const first = under(from);
    const last = under(to - 1);
    const isAlone = starts && stops && first === last;
    const after = from - (first?.partial ?? bar.partial);
    return [
      ...(starts ? [{ at: first, after, bracket, type: 'start' as const, isAlone }] : []),
      ...(stops ? [{ at: last, after: 0, bracket, type: 'stop' as const, isAlone }] : []),
    ];
  });
}

function directionsAt(
  ends: readonly BracketEnd[],
  event: StaffEvent | undefined,
  partialDivisions: number,
): string {
  return ends
    .filter(({ at }) => at === event)
    .map(({ after, bracket, type, isAlone }) => {
      const offset = after > 0 ? textElement('offset', after * partialDivisions) : '';
      const lineEnd = bracket.isCut && type === 'stop' ? 'none' : 'down';
      const line = xml('bracket', { type, number: 1, 'line-end': lineEnd, 'line-type': 'solid' });
      const name = textElement('words', `cycle ${bracket.cycle}`);
      return (
        (type === 'start' && bracket.to - bracket.from > 1 ? direction(name, offset) : '') +
        (isAlone ? '' : direction(line, offset))
      );
    })
    .join('');
}

/** A direction over the staff. */
export const direction = (type: string, ...rest: readonly string[]): string =>
  `\n${xml('direction', { placement: 'above' }, xml('direction-type', {}, type), ...rest)}`;
