import { voiceNumber } from '../../phrase/model/voice';
import { NOTEHEADS, type HeadShape } from '../notehead';
import { AWAY, eventsOf, STEMS } from '../score/score';
import type { BeatGroup, Score, ScoreBar, StaffEvent, StaffNote, StaffVoice } from '../score/score';
import { noteSigns } from '../score/note-signs';
import { meiValue } from './mei-value';
import { xml, type Attributes } from '../xml';

/** From half staff spaces above the middle line to MEI's `loc`, which counts them from the bottom line. */
const BOTTOM_LINE = 4;
/** As MEI 5.1 names them in data.HEADSHAPE; the circled x by its code point, which it allows too. */
const HEAD_NAMES: Readonly<Record<HeadShape, string | undefined>> = {
  head: undefined,
  x: 'x',
  circleX: 'U+E0B3',
  diamond: 'diamond',
  plus: '+',
  square: 'rectangle',
};
/** Where rests stand, so that no voice is in the other's way; alone on the staff they are in its middle. */
const REST_LOC = { hands: 8, feet: 0, alone: 4 } as const;
/** From a head to the middle of a quarter rest under it, half staff spaces: half a head and half the rest (SMuFL 1.4). */
const UNDER_HEAD = 5;

/** What is the same for all notes of a voice in a bar. */
export interface MeiVoice {
  readonly voice: StaffVoice;
  /** Nothing else is on the staff in this bar. */
  readonly isAlone: boolean;
  /** Where rests of the feet stand beside the hands, as `loc`. */
  readonly footRests: number;
  /** Which signs are written at the notes. */
  readonly signs: 'all' | 'all but closed' | 'none';
  /** Whether their numbers are drawn. */
  readonly hasTuplets: boolean;
  /** How a note sounds; left out where nobody listens. */
  readonly sound: ((note: StaffNote) => Attributes) | undefined;
}

/** Rests of one voice stand on one height all through a score: lower where one would touch a head of the hands. */
export function footRestLoc({ bars }: Pick<Score, 'bars'>): number {
  const locs = bars.flatMap((bar) => {
    const hands = new Map(eventsOf(bar, 'hands').map(({ partial, notes }) => [partial, notes]));
    return eventsOf(bar, 'feet')
      .filter(({ notes }) => notes.length === 0)
      .flatMap(({ partial }) => hands.get(partial) ?? [])
      .map(({ place }) => place + BOTTOM_LINE - UNDER_HEAD);
  });
  return Math.min(REST_LOC.feet, ...locs);
}

/** A voice of a bar as what is in its `<layer>`. */
export function meiVoice(bar: ScoreBar, of: MeiVoice): string {
  return bar.voices[of.voice].map((group) => meiBeat(group, of)).join('');
}

/**
 * The events of a beat. Grace notes stand ahead of a beam that begins with their note, since in it Verovio 6.3 draws no
 * flags and slashes, and ahead of a tuplet, which takes no group of them.
 */
function meiBeat({ events, beams, tuplet }: BeatGroup, of: MeiVoice): string {
  const ahead = meiGraces(events[0]!, of, 'graceGrp');
  let text = '';
  for (let i = 0; i < events.length; i++) {
    const beam = beams.find(({ level, from }) => level === 1 && from === i);
    const [event, ...others] = events.slice(i, (beam?.to ?? i) + 1);
    if (i > 0) text += meiGraces(event!, of, tuplet ? undefined : 'graceGrp');
    text += beam
      ? xml(
          'beam',
          {},
          meiEvent(event!, of),
          ...others.map((other) => meiGraces(other, of, 'graceGrp') + meiEvent(other, of)),
        )
      : meiEvent(event!, of);
    i += others.length;
  }
  if (!tuplet) return ahead + text;
  const { number, inTimeOf, bracket } = tuplet;
  const place = AWAY[of.voice];
  const shown = {
    'bracket.visible': String(bracket && of.hasTuplets),
    'bracket.place': place,
    'num.visible': String(of.hasTuplets),
    'num.place': place,
  };
  return ahead + xml('tuplet', { num: number, numbase: inTimeOf, ...shown }, text);
}

function meiEvent(event: StaffEvent, of: MeiVoice): string {
  const value = meiValue(event);
  const { voice, isAlone, footRests } = of;
  if (event.notes.length === 0)
    return xml('rest', {
      'xml:id': event.id,
      ...value,
      loc: isAlone ? REST_LOC.alone : voice === 'feet' ? footRests : REST_LOC.hands,
    });
  const stem = { 'stem.dir': STEMS[voice] };
  const [first, ...others] = event.notes;
  const signs = meiSigns(event.notes, of);
  if (others.length === 0) return meiNote(first!, of, { ...value, ...stem }, signs);
  return xml(
    'chord',
    { ...value, ...stem },
    signs,
    ...event.notes.map((note) => meiNote(note, of, {})),
  );
}

function meiNote(note: StaffNote, of: MeiVoice, more: Attributes, signs = ''): string {
  return xml(
    'note',
    {
      'xml:id': note.id,
      ...more,
      loc: note.place + BOTTOM_LINE,
      'head.shape': HEAD_NAMES[NOTEHEADS[voiceNumber(note.voice)]!.shape],
      'head.mod': note.level === 'ghost' ? 'paren' : undefined,
      ...of.sound?.(note),
      type: [note.voice.replaceAll(' ', '-'), note.level, note.isNew ? 'new' : ''].join(' ').trim(),
    },
    signs,
  );
}

const meiSigns = (notes: readonly StaffNote[], { voice, signs }: MeiVoice): string =>
  signs === 'none'
    ? ''
    : noteSigns(notes, signs === 'all')
        .map((artic) => xml('artic', { artic, place: AWAY[voice] }))
        .join('');

/** A flam is an eighth with a slash, a drag sixteenths under a beam (common practice, no source). */
function meiGraces({ graces }: StaffEvent, of: MeiVoice, group: 'graceGrp' | undefined): string {
  if (graces.length === 0) return '';
  const steps = [...new Set(graces.map(({ graceStep }) => graceStep))];
  const isFlam = steps.length === 1;
  const value = {
    grace: 'unacc',
    dur: isFlam ? 8 : 16,
    'stem.mod': isFlam ? '1slash' : undefined,
    'stem.dir': STEMS[of.voice],
  };
  const struck = steps.map((step) => {
    const [first, ...others] = graces.filter(({ graceStep }) => graceStep === step);
    return others.length === 0
      ? meiNote(first!, of, value)
      : xml('chord', value, ...[first!, ...others].map((note) => meiNote(note, of, {})));
  });
  const joined = isFlam ? struck[0]! : xml('beam', {}, ...struck);
  return group ? xml(group, { attach: 'pre', grace: 'unacc' }, joined) : joined;
}
