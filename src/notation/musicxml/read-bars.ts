import { beats, type Beats } from '../../time/beats';
import type { Instruments } from './voice-of-note';
import { readMeter, readMetronome, readSwing } from './read-figures';
import { isTiedOver, readHead, type ReadHead } from './read-head';
import { readSticking, type StickingStroke } from './read-sticking';
import { childOf, childrenOf, textOf, type XmlElement } from './xml-tree';

/** A main note. */
export interface ReadNote extends ReadHead {
  /** Quarters from the start of its bar. */
  readonly at: Beats;
  /** The voice of the part that it stands in. */
  readonly line: string;
  /** Ahead of all notes of its line and onset, first to sound first; those at once together. */
  readonly graces: readonly (readonly ReadHead[])[];
}

/** Who strikes, under or over an onset. */
export interface StickingAt {
  /** Quarters from the start of its bar. */
  readonly at: Beats;
  readonly strokes: readonly StickingStroke[];
}

/** A bar as it stands in the file. */
export interface ReadBar {
  readonly notes: readonly ReadNote[];
  readonly stickings: readonly StickingAt[];
  /** Until the last voice ends. */
  readonly quarters: Beats;
  readonly isImplicit: boolean;
  /** The name of the section that it begins. */
  readonly section: string | undefined;
  /** A repeat ends with it. */
  readonly isRepeatEnd: boolean;
  /** Figures such as "7/8" where a time signature stands in it. */
  readonly meter: string | undefined;
  /** Quarters a minute. */
  readonly tempos: readonly number[];
  /** Long to short, such as "2:1", where it says one. */
  readonly swing: string | undefined;
  /** What is in it that is not read, in words. */
  readonly unread: readonly string[];
}

/** What is carried from bar to bar. */
interface Course {
  readonly instruments: Instruments;
  divisions: number;
  /** Grace notes that wait for their main note, by line; those at once together. */
  readonly waiting: Map<string, ReadHead[][]>;
}

/** The bars of a part, in order, each once: repeats are not played out. */
export function readBars(part: XmlElement, instruments: Instruments): readonly ReadBar[] {
  const course: Course = { instruments, divisions: 1, waiting: new Map() };
  return childrenOf(part, 'measure').map((measure) => new BarReader(measure, course).bar());
}

/** Divisions and durations have no more digits. Chosen. */
const NUMBER = /^\d{1,9}(?:\.\d{1,6})?$/;
const MILLION = 1e6;
const MOST_GRACES = 2;

class BarReader {
  readonly #measure: XmlElement;
  readonly #course: Course;
  readonly #notes: ReadNote[] = [];
  readonly #stickings: StickingAt[] = [];
  readonly #unread = new Set<string>();
  readonly #tempos: number[] = [];
  #swing: string | undefined;
  #meter: string | undefined;
  #isRepeatEnd = false;
  #section: string | undefined;
  #cursor = beats(0);
  #onset = beats(0);
  #end = beats(0);

  constructor(measure: XmlElement, course: Course) {
    this.#measure = measure;
    this.#course = course;
  }

  bar(): ReadBar {
    for (const item of this.#measure.children) this.#read(item);
    return {
      notes: this.#notes,
      stickings: this.#stickings,
      quarters: this.#end,
      isImplicit: this.#measure.attributes['implicit'] === 'yes',
      isRepeatEnd: this.#isRepeatEnd,
      section: this.#section,
      meter: this.#meter,
      tempos: this.#tempos,
      swing: this.#swing,
      unread: [...this.#unread],
    };
  }

  #read(item: XmlElement): void {
    switch (item.name) {
      case 'attributes':
        return this.#readAttributes(item);
      case 'backup':
        this.#cursor = this.#cursor.sub(this.#quarters(item));
        if (this.#cursor.compare(0) < 0) this.#cursor = beats(0);
        return;
      case 'forward':
        this.#cursor = this.#cursor.add(this.#quarters(item));
        return;
      case 'sound':
        return this.#readSound(item);
      case 'barline':
        if (childOf(item, 'ending')) this.#unread.add('an ending of a repeat, read as it stands');
        if (childOf(item, 'repeat')?.attributes['direction'] === 'backward')
          this.#isRepeatEnd = true;
        return;
      case 'direction':
        return this.#readDirection(item);
      case 'note':
        return this.#readNote(item);
    }
  }

  #readAttributes(item: XmlElement): void {
    const divisions = textOf(item, 'divisions') ?? '';
    if (NUMBER.test(divisions) && Number(divisions) > 0) this.#course.divisions = Number(divisions);
    const time = childOf(item, 'time');
    if (time) this.#meter = readMeter(time);
    if (childrenOf(item, 'measure-style').some(({ children }) => children.some(isRepeatSign)))
      this.#unread.add('a sign that repeats bars or beats');
  }

  #readSound(element: XmlElement | undefined): void {
    const tempo = Number(element?.attributes['tempo']);
    if (tempo > 0 && tempo < Infinity) this.#tempos.push(tempo);
    this.#swing = readSwing(childOf(element, 'swing'), this.#unread) ?? this.#swing;
  }

  #readDirection(item: XmlElement): void {
    const sound = childOf(item, 'sound');
    this.#readSound(sound);
    for (const type of childrenOf(item, 'direction-type')) {
      for (const { text } of childrenOf(type, 'words')) this.#readSticking(text, this.#cursor);
      this.#section = textOf(type, 'rehearsal') ?? this.#section;
      const metronome = readMetronome(childOf(type, 'metronome'));
      if (metronome !== undefined && !sound) this.#tempos.push(metronome);
    }
  }

  #readSticking(text: string, at: Beats): void {
    const strokes = readSticking(text);
    if (strokes) this.#stickings.push({ at, strokes });
  }

  #readNote(note: XmlElement): void {
    const isChord = childOf(note, 'chord') !== undefined;
    const isGrace = childOf(note, 'grace') !== undefined;
    const line = textOf(note, 'voice') ?? '1';
    if (!isChord && !isGrace) {
      this.#onset = this.#cursor;
      this.#cursor = this.#cursor.add(this.#quarters(note));
      if (this.#cursor.compare(this.#end) > 0) this.#end = this.#cursor;
    }
    if (!isGrace)
      for (const lyric of childrenOf(note, 'lyric'))
        this.#readSticking(textOf(lyric, 'text') ?? '', this.#onset);
    if (childOf(note, 'cue')) this.#unread.add('a cue note');
    else if (childOf(note, 'rest')) this.#endGraces(line);
    else if (!isTiedOver(note)) {
      const head = readHead(note, this.#course.instruments, this.#unread);
      if (head && isGrace) this.#addGrace(head, line, isChord);
      else if (head)
        this.#notes.push({ ...head, at: this.#onset, line, graces: this.#graces(line) });
    }
  }

  #addGrace(head: ReadHead, line: string, isChord: boolean): void {
    const { waiting } = this.#course;
    const columns = waiting.get(line) ?? [];
    waiting.set(line, columns);
    if (isChord && columns.length > 0) columns.at(-1)!.push(head);
    else columns.push([head]);
  }

  #graces(line: string): readonly (readonly ReadHead[])[] {
    const { waiting } = this.#course;
    const columns = waiting.get(line) ?? [];
    waiting.delete(line);
    if (columns.length > MOST_GRACES)
      this.#unread.add('a note with more than two grace notes, of which the last two are read');
    return columns.slice(-MOST_GRACES);
  }

  #endGraces(line: string): void {
    if (this.#course.waiting.delete(line)) this.#unread.add('a grace note without a note after it');
  }

  #quarters(element: XmlElement): Beats {
    const text = textOf(element, 'duration');
    if (text !== undefined && NUMBER.test(text))
      return beats(Math.round(Number(text) * MILLION), MILLION).div(
        beats(Math.round(this.#course.divisions * MILLION), MILLION),
      );
    if (text !== undefined) this.#unread.add('a duration that is no number');
    return beats(0);
  }
}

const isRepeatSign = ({ name }: XmlElement): boolean =>
  name === 'measure-repeat' || name === 'beat-repeat' || name === 'slash';
