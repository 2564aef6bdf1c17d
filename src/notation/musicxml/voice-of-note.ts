import type { Voice } from '../../phrase/model/voice';
import { VOICES, voiceNumber } from '../../phrase/model/voice';
import { VOICE_OF_KEY } from '../general-midi-keys';
import { GLYPH, NOTEHEADS, type HeadShape } from '../notehead';
import { STAFF_PLACES } from '../staff-places';
import { HEAD_NAMES } from './musicxml-names';
import { childrenOf, textOf, type XmlElement } from './xml-tree';

/** Instruments of a part by their ids, with the voice that each stands for. */
export type Instruments = ReadonlyMap<string, Voice | undefined>;

/** Words in the names of instruments, the telling ones first; common practice, no source. */
const WORDS: readonly (readonly [RegExp, Voice])[] = [
  [/foot.?splash/, 'hi-hat foot splash'],
  [/(pedal|foot).*hat|hat.*(pedal|foot)/, 'hi-hat pedal'],
  [/open.*hat|hat.*open/, 'hi-hat open'],
  [/hi-?\s?hat|\bhh\b/, 'hi-hat closed'],
  [/cow.?bell/, 'cowbell'],
  [/ride.*bell|\bbell\b/, 'ride bell'],
  [/ride/, 'ride'],
  [/chin(a|ese)/, 'china'],
  [/splash/, 'splash'],
  [/crash|cymbal/, 'crash'],
  [/(side|cross).?stick|rim.?click/, 'side stick'],
  [/snare/, 'snare'],
  [/kick|bass.?drum/, 'bass drum'],
  [/floor|tom.?[345]\b/, 'floor tom'],
  [/(mid|low).*tom|tom.?2\b|tom.*(mid|low)/, 'mid tom'],
  [/\btom/, 'high tom'],
];

/** The instruments of a part: by our own name for a voice, by key of General MIDI, then by words of the name. */
export function instrumentsOf(scorePart: XmlElement | undefined): Instruments {
  const keys = new Map(
    childrenOf(scorePart, 'midi-instrument').map((midi) => [
      midi.attributes['id'],
      textOf(midi, 'midi-unpitched') ?? '',
    ]),
  );
  return new Map(
    childrenOf(scorePart, 'score-instrument').map((instrument) => {
      const id = instrument.attributes['id'] ?? '';
      const name = (textOf(instrument, 'instrument-name') ?? '').toLowerCase();
      const own = VOICES.find((voice) => voice === name);
      return [id, own ?? voiceOfKey(keys.get(id)) ?? voiceOfWords(name)];
    }),
  );
}

/** `midi-unpitched` counts from 1; what is none of 1 to 128 was written by mistake. */
const voiceOfKey = (text: string | undefined): Voice | undefined =>
  text !== undefined && /^[1-9]\d{0,2}$/.test(text)
    ? VOICE_OF_KEY.get(Number(text) - 1)
    : undefined;

const voiceOfWords = (name: string): Voice | undefined =>
  WORDS.find(([words]) => words.test(name))?.[1];

/** How a note looks. */
export interface NoteLook {
  /** Half staff spaces above the middle line. */
  readonly place: number;
  /** As MusicXML names it. */
  readonly head: string;
  readonly sign: 'open' | 'closed' | undefined;
}

/** Hand percussion has no place that everybody uses. */
const DRUMSET: ReadonlySet<Voice> = new Set<Voice>([
  ...(['china', 'crash', 'hi-hat open', 'hi-hat closed', 'ride bell', 'ride'] as const),
  ...(['high tom', 'mid tom', 'side stick', 'snare', 'floor tom', 'bass drum'] as const),
  ...(['hi-hat foot splash', 'hi-hat pedal'] as const),
]);
const LOOKS = VOICES.filter((voice) => DRUMSET.has(voice)).map((voice) => {
  const { shape, sign } = NOTEHEADS[voiceNumber(voice)]!;
  return { voice, place: STAFF_PLACES[voice], shape, isOpen: sign === GLYPH.open };
});
/** Where others write a drum; common practice, no source. */
const ELSEWHERE: readonly (readonly [place: number, shape: HeadShape, voice: Voice])[] = [
  [7, 'x', 'crash'],
  [5, 'circleX', 'hi-hat open'],
  [3, 'head', 'high tom'],
  [0, 'head', 'mid tom'],
  [-2, 'head', 'floor tom'],
  [-4, 'head', 'bass drum'],
  [-6, 'x', 'hi-hat pedal'],
];

/** The voice that a note without an instrument looks like; undefined where it looks like none. */
function voiceOfLook({ place, head, sign }: NoteLook): Voice | undefined {
  const isOpen = sign === 'open';
  const named = LOOKS.filter((look) => look.place === place && HEAD_NAMES[look.shape] === head);
  const found = named.find((look) => look.isOpen === isOpen) ?? named[0];
  return (
    found?.voice ?? ELSEWHERE.find(([at, shape]) => at === place && HEAD_NAMES[shape] === head)?.[2]
  );
}

/**
 * The voice of a note: what its instrument says; a sign for open counts where the part has no instrument for it.
 * Without an instrument, what the note looks like.
 */
export function voiceOfNote(
  instruments: Instruments,
  id: string | undefined,
  look: NoteLook | undefined,
): Voice | undefined {
  const only = instruments.size === 1 ? [...instruments.values()][0] : undefined;
  const told = id === undefined ? undefined : instruments.get(id);
  if (told === undefined) return (look && voiceOfLook(look)) ?? only;
  if (look?.sign !== 'open') return told;
  const has = (voice: Voice) => [...instruments.values()].includes(voice);
  if (told === 'hi-hat closed' && !has('hi-hat open')) return 'hi-hat open';
  if (told === 'hi-hat pedal' && !has('hi-hat foot splash')) return 'hi-hat foot splash';
  return told;
}
