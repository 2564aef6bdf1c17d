import type { FindingCode } from '../../../src/coach/wording';
import type { TimedNote } from '../../../src/match/timed-note';
import type { JudgedNote } from '../../../src/score/judged-note';

/** A finding as it is read here. */
export interface ReadFinding {
  readonly code: FindingCode;
  readonly text: string;
  /** Those it is about: objects of the judgement; none for the take as a whole. Undefined where the coach does not say. */
  readonly notes?: readonly TimedNote[] | undefined;
}

/** What is wrong, whichever way the coach groups the notes. */
export type Kind =
  | 'time'
  | 'unison'
  | 'swing'
  | 'tempo'
  | 'place'
  | 'drift'
  | 'spread'
  | 'growth'
  | 'level'
  | 'contrast'
  | 'voice'
  | 'map'
  | 'missed'
  | 'own notes'
  | 'extras';

/** Every code of a finding; undefined for what claims nothing. */
const KIND_OF: Readonly<Record<FindingCode, Kind | undefined>> = {
  'all strokes off': 'time',
  'layer off': 'time',
  'level off': 'time',
  'limb off': 'time',
  'partial off': 'time',
  'position off': 'time',
  'transition off': 'time',
  'voice off': 'time',
  'unison off': 'unison',
  swing: 'swing',
  'other tempo': 'tempo',
  'lost place': 'place',
  drift: 'drift',
  'silent bars': 'drift',
  spread: 'spread',
  'spread apart': 'spread',
  'spread grows': 'growth',
  'levels inverted': 'level',
  'too loud': 'level',
  'too soft': 'level',
  contrast: 'contrast',
  'wrong voice': 'voice',
  'voice mapped': 'map',
  missed: 'missed',
  'own notes wrong': 'own notes',
  bounces: 'extras',
  extras: 'extras',
  even: undefined,
  'nothing stands out': undefined,
  undecided: undefined,
};

export const kindOf = ({ code }: Pick<ReadFinding, 'code'>): Kind | undefined => KIND_OF[code];

/** What may be said of a fault; one of several where they come to the same. */
export interface Truth {
  readonly kinds: readonly Kind[];
  /** Early, slower swing, rushing and too soft are negative; 0 where there is no side. */
  readonly sign: -1 | 0 | 1;
  /** The notes that it touches; undefined where they do not matter. */
  readonly touches: ((one: JudgedNote) => boolean) | undefined;
  /** The tempo that the sentence has to say, within one beat a minute. */
  readonly bpm?: number;
}

/** Notes are the same that overlap so much: |A ∩ B| / |A ∪ B|, Jaccard. */
export const SAME_NOTES = 0.95;

/** Whether a finding says what is so. */
export function names(
  finding: ReadFinding,
  truths: readonly Truth[],
  notes: readonly JudgedNote[],
): boolean {
  const kind = kindOf(finding);
  return truths.some(
    ({ kinds, sign, touches, bpm }) =>
      kind !== undefined &&
      kinds.includes(kind) &&
      !contradicts(finding, sign) &&
      (bpm === undefined || numbersIn(finding).some((one) => Math.abs(one - bpm) <= 1)) &&
      (touches === undefined || isAbout(finding, touches, notes, kind === 'contrast')),
  );
}

function isAbout(
  { notes: about }: ReadFinding,
  touches: (one: JudgedNote) => boolean,
  notes: readonly JudgedNote[],
  orTheOthers: boolean,
): boolean {
  // Where the coach does not say which notes, kind and side must do.
  if (about === undefined) return true;
  // A finding about no notes is one of the take as a whole.
  const named = new Set(about.length > 0 ? about : notes.map(({ due }) => due));
  const overlap = (isTouched: (one: JudgedNote) => boolean) => {
    let both = 0;
    let either = 0;
    for (const one of notes) {
      const inNamed = named.has(one.due);
      const inTouched = isTouched(one);
      if (inNamed && inTouched) both++;
      if (inNamed || inTouched) either++;
    }
    return either === 0 ? 1 : both / either;
  };
  return (
    overlap(touches) >= SAME_NOTES || (orTheOthers && overlap((one) => !touches(one)) >= SAME_NOTES)
  );
}

const numbersIn = ({ text }: ReadFinding): number[] =>
  [...text.matchAll(/\d+(?:\.\d+)?/g)].map(([one]) => Number(one));

/** Whether it tells a placing as a fact that may be meant, and no fault. */
export const isNeutral = ({ text }: ReadFinding): boolean => /\b(steadily|meant)\b/i.test(text);

const NEGATIVE = /\b(early|ahead|earlier|rush\w*|soft\w*|faster|speed\w* up)\b/i;
const POSITIVE = /\b(late|behind|later|drag\w*|loud\w*|slower|slow\w* down)\b/i;

/** A sentence that names no side, or both, contradicts none. */
function contradicts({ text }: ReadFinding, sign: Truth['sign']): boolean {
  if (sign === 0) return false;
  const says = [NEGATIVE, POSITIVE].map((words) => words.test(text));
  if (says[0] === says[1]) return false;
  return sign < 0 ? says[1]! : says[0]!;
}
