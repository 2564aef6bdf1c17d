import { USUAL_VELOCITIES, type Level } from '../../phrase/model/level';
import type { Voice } from '../../phrase/model/voice';
import { voiceNumber } from '../../phrase/model/voice';
import { textElement, xml } from '../xml';
import { NOTEHEADS } from '../notehead';
import { noteSigns } from '../score/note-signs';
import { AWAY, STEMS } from '../score/score';
import type { BeatGroup, StaffEvent, StaffNote, StaffVoice } from '../score/score';
import { displayPitch, HEAD_NAMES, noteType } from './musicxml-names';

/** What is the same for all notes of a voice in a bar. */
export interface XmlVoice {
  readonly voice: StaffVoice;
  /** Divisions of a partial. */
  readonly partialDivisions: number;
  /** Closed hi-hats carry their plus beside open ones only. */
  readonly hasClosedSigns: boolean;
  /** Nothing else is on the staff in this bar. */
  readonly isAlone: boolean;
  /** Rows of text under an event: who strikes, and the count; undefined where the other voice carries them. */
  readonly rows: (event: StaffEvent) => readonly (string | undefined)[];
}

/** Numbers of the voices; rests stand where they are in nobody's way, half spaces above the middle line. */
const VOICE_NUMBERS = { hands: 1, feet: 2 } as const;
const REST_PLACES = { hands: 3, feet: -5, alone: 0 } as const;
/** In percent of a forte, which is velocity 90 (MusicXML 4.0, `dynamics` of a note). */
const dynamicsPercent = (level: Level): number =>
  Math.round((10_000 * USUAL_VELOCITIES[level]) / 90) / 100;

/** The id of a voice's instrument in the part. @example instrumentId('hi-hat open') // => 'D-hi-hat-open' */
export const instrumentId = (voice: Voice): string => `D-${voice.replaceAll(' ', '-')}`;

/** The events of a beat, each as its notes; grace notes ahead of them. */
export function xmlGroup(group: BeatGroup, of: XmlVoice): readonly (readonly string[])[] {
  return group.events.map((event, i) => [
    ...xmlGraces(event, of),
    ...(event.notes.length > 0
      ? event.notes.map((note, k) => xmlNote(note, k, { group, event, i, of }))
      : [xmlRest({ group, event, i, of })]),
  ]);
}

/** An event with its place in the group. */
interface EventPlace {
  readonly group: BeatGroup;
  readonly event: StaffEvent;
  readonly i: number;
  readonly of: XmlVoice;
}

function xmlNote(note: StaffNote, k: number, place: EventPlace): string {
  const { event, of } = place;
  const isFirst = k === 0;
  return xml(
    'note',
    { id: note.id, dynamics: dynamicsPercent(note.level) },
    ...(isFirst ? [] : [xml('chord', {})]),
    unpitched(note),
    textElement('duration', event.partials * of.partialDivisions),
    xml('instrument', { id: instrumentId(note.voice) }),
    textElement('voice', VOICE_NUMBERS[of.voice]),
    ...value(place),
    textElement('stem', STEMS[of.voice]),
    head(note),
    ...(isFirst ? beamsOf(place) : []),
    notations([...(isFirst ? tupletEnds(place) : []), ...signs(note, of)]),
    ...(isFirst ? lyrics(place) : []),
    limbOf(note),
  );
}

function xmlRest(place: EventPlace): string {
  const { event, of } = place;
  return xml(
    'note',
    { id: event.id },
    displayed('rest', REST_PLACES[of.isAlone ? 'alone' : of.voice]),
    textElement('duration', event.partials * of.partialDivisions),
    textElement('voice', VOICE_NUMBERS[of.voice]),
    ...value(place),
    notations(tupletEnds(place)),
    ...lyrics(place),
  );
}

/** A bar in which nobody plays. */
export const xmlSilentBar = (divisions: number): string =>
  xml(
    'note',
    {},
    xml('rest', { measure: 'yes' }),
    textElement('duration', divisions),
    textElement('voice', VOICE_NUMBERS.hands),
  );

function displayed(name: 'rest' | 'unpitched', place: number): string {
  const { step, octave } = displayPitch(place);
  return xml(name, {}, textElement('display-step', step), textElement('display-octave', octave));
}

const unpitched = ({ place }: StaffNote): string => displayed('unpitched', place);

/** Type, dot and, in a tuplet, its ratio; the type that it counts is that of its shortest undivided part. */
function value({ group: { events, tuplet }, event }: EventPlace): readonly string[] {
  const written = [
    textElement('type', noteType(event.flags)),
    ...(event.dotted ? [xml('dot', {})] : []),
  ];
  if (!tuplet) return written;
  const quarters = events.reduce(
    (sum, { flags, dotted }) => sum + 2 ** -flags * (dotted ? 1.5 : 1),
    0,
  );
  return [
    ...written,
    xml(
      'time-modification',
      {},
      textElement('actual-notes', tuplet.number),
      textElement('normal-notes', tuplet.inTimeOf),
      textElement('normal-type', noteType(Math.round(Math.log2(tuplet.number / quarters)))),
    ),
  ];
}

function head({ voice, level }: StaffNote): string {
  const { shape } = NOTEHEADS[voiceNumber(voice)]!;
  return xml('notehead', { parentheses: level === 'ghost' ? 'yes' : undefined }, HEAD_NAMES[shape]);
}

function beamsOf({ group: { beams, events }, i }: EventPlace): readonly string[] {
  if (events[i]!.notes.length === 0) return [];
  return beams
    .filter(({ from, to, level }) => from <= i && i <= to && level <= events[i]!.flags)
    .sort((a, b) => a.level - b.level)
    .map(({ level, from, to, stub }) => {
      const hook = stub === 'left' ? 'backward hook' : 'forward hook';
      const part = i === from ? 'begin' : i === to ? 'end' : 'continue';
      return xml('beam', { number: level }, from === to ? hook : part);
    });
}

function tupletEnds({ group: { tuplet, events }, i, of }: EventPlace): readonly string[] {
  if (!tuplet) return [];
  const bracket = tuplet.bracket ? 'yes' : 'no';
  if (i === 0)
    return [xml('tuplet', { type: 'start', number: 1, bracket, placement: AWAY[of.voice] })];
  return i === events.length - 1 ? [xml('tuplet', { type: 'stop', number: 1 })] : [];
}

/** The accent first. */
function signs(note: StaffNote, of: XmlVoice): readonly string[] {
  const { signBelow } = NOTEHEADS[voiceNumber(note.voice)]!;
  const placement = signBelow ? 'below' : 'above';
  return noteSigns([note], of.hasClosedSigns)
    .toReversed()
    .map((sign) =>
      sign === 'acc'
        ? xml('articulations', {}, xml('accent', { placement: AWAY[of.voice] }))
        : xml('technical', {}, xml(sign === 'open' ? 'open' : 'stopped', { placement })),
    );
}

const notations = (inside: readonly string[]): string =>
  inside.length > 0 ? xml('notations', {}, ...inside) : '';

const lyrics = ({ event, of }: EventPlace): readonly string[] =>
  of
    .rows(event)
    .map((row, i) =>
      row === undefined || row === ''
        ? ''
        : xml(
            'lyric',
            { number: i + 1, placement: 'below' },
            textElement('syllabic', 'single'),
            textElement('text', row),
          ),
    );

/** Who strikes is in the row of text; two hands on one chord, and grace notes, are told apart by this, which nobody draws. */
const limbOf = ({ limb }: StaffNote): string =>
  xml('play', {}, xml('other-play', { type: 'limb' }, limb));

/** One grace note is a flam, slashed; more are beamed sixteenths (common practice, no source). */
function xmlGraces({ graces }: StaffEvent, of: XmlVoice): readonly string[] {
  const steps = [...new Set(graces.map(({ graceStep }) => graceStep))];
  return steps.flatMap((step, s) =>
    graces
      .filter(({ graceStep }) => graceStep === step)
      .map((note, k) =>
        xml(
          'note',
          { id: note.id, dynamics: dynamicsPercent(note.level) },
          steps.length === 1 ? xml('grace', { slash: 'yes' }) : xml('grace', {}),
          ...(k === 0 ? [] : [xml('chord', {})]),
          unpitched(note),
          xml('instrument', { id: instrumentId(note.voice) }),
          textElement('voice', VOICE_NUMBERS[of.voice]),
          textElement('type', noteType(steps.length === 1 ? 1 : 2)),
          textElement('stem', STEMS[of.voice]),
          head(note),
          ...(steps.length > 1 && k === 0
            ? [1, 2].map((number) => xml('beam', { number }, graceBeam(s, steps.length)))
            : []),
          notations(signs(note, of)),
          limbOf(note),
        ),
      ),
  );
}

const graceBeam = (at: number, count: number): string =>
  at === 0 ? 'begin' : at === count - 1 ? 'end' : 'continue';
