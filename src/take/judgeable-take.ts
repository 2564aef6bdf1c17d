import { parsePhrase } from '../phrase/file/parse-phrase';
import { passageStart } from '../phrase/layers/passage-start';
import type { Phrase } from '../phrase/model/phrase';
import { tempoMap } from '../time/tempo';
import type { Take } from './take';
import { charactersFor, fitsFile, MOST_PARTIALS, takeLength, type TakeLength } from './take-length';
import { hasTakeShape } from './take-shape';

/** What a take must hold to be judged again. */
export type JudgeableTake = Omit<Take, 'startedAt' | 'endUs'>;

export interface TakeError {
  readonly code: 'NOT_JSON' | 'TOO_LARGE' | 'VERSION' | 'SHAPE' | 'KIT' | 'ORDER' | 'LAYER';
  /** Path into the file with list places from 0: "messages[3][1]"; empty for the whole. */
  readonly place: string;
  readonly message: string;
}

/** What of a take says what is due, and up to when. */
export type TakeExtent = Pick<Take, 'passages' | 'tempos' | 'commands' | 'messages'>;

/** The phrase of a take that can be judged again; undefined where it cannot be read, or the take is damaged. */
export function judgeablePhrase(take: JudgeableTake): Phrase | undefined {
  const timesUs = take.messages.map(({ timeUs }) => timeUs);
  if (!hasTakeShape(take, timesUs)) return undefined;
  const phrase = parsePhrase(take.phraseText);
  return phrase.ok && takeErrors(take, phrase.value).length === 0 ? phrase.value : undefined;
}

/**
 * What is wrong with a take of the right shape, as far as one sees without a phrase that cannot be read.
 *
 * @example takeErrors({ passages: [{ fromBar: 1, layer: 2 }], tempos: [{ fromBeat: beats(0), bpm: 90 }], messages: [] }, checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value)[0].code // => 'LAYER'
 */
export function takeErrors(take: TakeExtent, phrase: Phrase | undefined): TakeError[] {
  const { passages, tempos, commands = [], messages } = take;
  const missing = commands.findIndex((at) => at >= messages.length);
  const errors: TakeError[] = [
    ...noMessage(missing, commands[missing], messages.length),
    ...backwards(
      'tempos',
      tempos.findIndex(
        ({ fromBeat }, i) => i > 0 && (fromBeat.lt(0) || fromBeat.lt(tempos[i - 1]!.fromBeat)),
      ),
    ),
    ...backwards(
      'passages',
      passages.findIndex(({ fromBar }, i) => i > 0 && fromBar < passages[i - 1]!.fromBar),
    ),
  ];
  if (!phrase) return errors;
  const { length } = phrase.layers;
  const beyond = passages.findIndex(({ layer }) => layer > length);
  if (beyond >= 0)
    return [
      ...errors,
      {
        code: 'LAYER',
        place: `passages[${beyond}].layer`,
        message: `There is no layer ${passages[beyond]!.layer} in a phrase of ${length}; choose one of them.`,
      },
    ];
  const starts = passages.map((passage) => passageStart(phrase, passage));
  const early = starts.findIndex((start, i) => i > 0 && start.lt(starts[i - 1]!));
  if (errors.length === 0) errors.push(...backwards('passages', early));
  if (errors.length > 0) return errors;
  const partials = Math.round(lengthOf(take, phrase).partials);
  if (partials <= MOST_PARTIALS) return [];
  const message = `From bar 1 to the last message lie about ${partials} partials, and at most ${MOST_PARTIALS} are judged; correct the time of that message, or leave it out.`;
  return [{ code: 'TOO_LARGE', place: 'messages', message }];
}

/** As many characters as a file of a take must have, so that it is judged up to its last message; 0 where nothing is. */
export function charactersDue(take: JudgeableTake): number {
  const phrase = take.messages.length > 0 ? judgeablePhrase(take) : undefined;
  return phrase ? charactersFor(lengthOf(take, phrase)) : 0;
}

/**
 * What is wrong with a take in a file of so many characters whose last message lies far beyond what was played: a few
 * bytes would have tens of thousands of notes judged.
 */
export function silenceErrors(take: TakeExtent, phrase: Phrase, characters: number): TakeError[] {
  const length = lengthOf(take, phrase);
  if (fitsFile(length, characters)) return [];
  const { partials, notes } = length;
  const message = `From bar 1 to the last message lie about ${Math.round(partials)} partials with ${Math.round(notes)} notes, more than are judged of a file of ${characters} characters; correct the time of that message, or leave it out.`;
  return [{ code: 'TOO_LARGE', place: 'messages', message }];
}

const lengthOf = ({ passages, tempos, messages }: TakeExtent, phrase: Phrase): TakeLength => {
  const lastUs = messages.reduce((last, { timeUs }) => Math.max(last, timeUs), 0);
  return takeLength({ passages, tempo: tempoMap(tempos) }, phrase, lastUs);
};

function noMessage(at: number, place: number | undefined, length: number): TakeError[] {
  if (place === undefined) return [];
  const message = `There is no message ${place}: there are ${length}, counted from 0; leave this one out.`;
  return [{ code: 'SHAPE', place: `commands[${at}]`, message }];
}

function backwards(list: string, index: number): TakeError[] {
  const message = 'This one begins before the one ahead of it; put them in order.';
  return index < 0 ? [] : [{ code: 'ORDER', place: `${list}[${index}]`, message }];
}
