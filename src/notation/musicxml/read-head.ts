import type { Level } from '../../phrase/model/level';
import type { Limb } from '../../phrase/model/limb';
import type { Voice } from '../../phrase/model/voice';
import { voiceOfNote, type Instruments, type NoteLook } from './voice-of-note';
import { displayPlace } from './musicxml-names';
import { readLimb, readSticking } from './read-sticking';
import { childOf, childrenOf, textOf, type XmlElement } from './xml-tree';

/** A head, main note or grace note. */
export interface ReadHead {
  readonly voice: Voice;
  readonly level: Level;
  /** 0 to 127, where the file says it. */
  readonly velocity: number | undefined;
  /** As a fingering says, or as the writer put it where nobody sees it. */
  readonly limb: Limb | undefined;
}

/** Whether a note only goes on sounding. */
export function isTiedOver(note: XmlElement): boolean {
  const ties = childrenOf(note, 'tie');
  const drawn = childrenOf(note, 'notations').flatMap((one) => childrenOf(one, 'tied'));
  return (ties.length > 0 ? ties : drawn).some(({ attributes }) => attributes['type'] === 'stop');
}

/** A note's head; undefined, and told, where nothing says what is struck. */
export function readHead(
  note: XmlElement,
  instruments: Instruments,
  unread: Set<string>,
): ReadHead | undefined {
  const look = readLook(note);
  const voice = voiceOfNote(instruments, childOf(note, 'instrument')?.attributes['id'], look);
  if (!voice) {
    unread.add('a note of which neither instrument nor place says what is struck');
    return undefined;
  }
  const notations = childrenOf(note, 'notations');
  const marks = notations.flatMap((one) => childrenOf(one, 'articulations')).flatMap(namesIn);
  if (
    notations
      .flatMap((one) => childrenOf(one, 'ornaments'))
      .flatMap(namesIn)
      .includes('tremolo')
  )
    unread.add('a roll, of which one stroke is read');
  const isGhost = childOf(note, 'notehead')?.attributes['parentheses'] === 'yes';
  const isAccent = marks.includes('accent') || marks.includes('strong-accent');
  const dynamics = Number(note.attributes['dynamics'] ?? NaN);
  return {
    voice,
    level: isAccent ? 'accent' : isGhost ? 'ghost' : 'tap',
    velocity: dynamics >= 0 && dynamics < Infinity ? (dynamics * FORTE) / 100 : undefined,
    limb: readHand(note, notations),
  };
}

/** `dynamics` of a note is in percent of this velocity (MusicXML 4.0). */
const FORTE = 90;

function readHand(note: XmlElement, notations: readonly XmlElement[]): Limb | undefined {
  const unseen = childrenOf(note, 'play')
    .flatMap((play) => childrenOf(play, 'other-play'))
    .find(({ attributes }) => attributes['type'] === 'limb');
  const fingerings = notations
    .flatMap((one) => childrenOf(one, 'technical'))
    .flatMap((technical) => childrenOf(technical, 'fingering'));
  const finger = fingerings.map(({ text }) => readSticking(text)).find((strokes) => strokes);
  return readLimb(unseen?.text) ?? (finger?.length === 1 ? finger[0]!.limb : undefined);
}

const namesIn = ({ children }: XmlElement): readonly string[] => children.map(({ name }) => name);

const OPEN_SIGNS: ReadonlySet<string> = new Set(['open', 'open-string', 'harmonic']);

function readLook(note: XmlElement): NoteLook | undefined {
  const unpitched = childOf(note, 'unpitched');
  const pitch = childOf(note, 'pitch');
  const step = textOf(unpitched, 'display-step') ?? textOf(pitch, 'step') ?? '';
  const octave = textOf(unpitched, 'display-octave') ?? textOf(pitch, 'octave') ?? '';
  const place = /^\d$/.test(octave) ? displayPlace(step, Number(octave)) : undefined;
  if (place === undefined) return undefined;
  const technical = childrenOf(note, 'notations')
    .flatMap((one) => childrenOf(one, 'technical'))
    .flatMap(({ children }) => children);
  const isOpen = technical.some(
    ({ name, attributes }) => OPEN_SIGNS.has(name) || attributes['smufl'] === 'brassMuteOpen',
  );
  const isClosed = technical.some(({ name }) => name === 'stopped');
  return {
    place,
    head: textOf(note, 'notehead') ?? 'normal',
    sign: isOpen ? 'open' : isClosed ? 'closed' : undefined,
  };
}
