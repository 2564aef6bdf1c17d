import { layerStack } from '../phrase/layers/layer-stack';
import { passageStart } from '../phrase/layers/passage-start';
import { gridAt } from '../phrase/model/grid';
import type { Phrase } from '../phrase/model/phrase';
import type { Take } from './take';

/** What a take must hold to be judged again. */
export type JudgeableTake = Omit<Take, 'startedAt' | 'endUs'>;

export interface TakeError {
  readonly code: 'NOT_JSON' | 'TOO_LARGE' | 'VERSION' | 'SHAPE' | 'KIT' | 'ORDER' | 'LAYER';
  /** Path into the file with list places from 0: "messages[3][1]"; empty for the whole. */
  readonly place: string;
  readonly message: string;
}

/**
 * Partials from bar 1 to the last stroke at most, counted at the quickest tempo. Chosen, not measured: over eight hours
 * of sixteenths at 240.
 */
const MOST_PARTIALS = 500_000;

/** Notes of a file that nobody need have played. Chosen, not measured: most of half an hour of sixteenths at 100. */
const MOST_UNPLAYED = 12_000;
/**
 * Notes beyond those for each message of a file. Chosen, not measured: after five minutes of playing a player may be away
 * for hours, and what is laid out costs no more than the file's length allows.
 */
const NOTES_A_MESSAGE = 40;
/** A partial on which nothing is due costs as much of a note: its mark on the lane. Measured, to a factor of two. */
const NOTES_A_PARTIAL = 1 / 16;

/** What of a take says what is due, and up to when. */
export type TakeExtent = Pick<Take, 'passages' | 'tempos' | 'commands' | 'messages'>;

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
  const partials = Math.round(lastBeats(take) * most(layersOf(take), subdivisionIn(phrase)));
  if (partials <= MOST_PARTIALS) return errors;
  const message = `From bar 1 to the last message lie about ${partials} partials, and at most ${MOST_PARTIALS} are judged; correct the time of that message, or leave it out.`;
  return [...errors, { code: 'TOO_LARGE', place: 'messages', message }];
}

/**
 * What is wrong with a take in a file whose last message lies far beyond what was played: a few bytes would have tens of
 * thousands of notes judged. A take that was played here is judged whatever lies in it.
 */
export function silenceErrors(take: TakeExtent, phrase: Phrase): TakeError[] {
  const subdivision = subdivisionIn(phrase);
  const notesABeat = (layer: number) =>
    (layerStack(phrase, layer).pattern(1).length / phrase.cycle) * subdivision(layer);
  const layers = layersOf(take);
  const beats = lastBeats(take);
  const notes = beats * most(layers, notesABeat);
  const partials = beats * most(layers, subdivision);
  const { length } = take.messages;
  if (notes + NOTES_A_PARTIAL * partials <= MOST_UNPLAYED + NOTES_A_MESSAGE * length) return [];
  const message = `From bar 1 to the last message lie about ${Math.round(partials)} partials with ${Math.round(notes)} notes, more than are judged of a file with so few messages, ${length}; correct the time of that message, or leave it out.`;
  return [{ code: 'TOO_LARGE', place: 'messages', message }];
}

function noMessage(at: number, place: number | undefined, length: number): TakeError[] {
  if (place === undefined) return [];
  const message = `There is no message ${place}: there are ${length}, counted from 0; leave this one out.`;
  return [{ code: 'SHAPE', place: `commands[${at}]`, message }];
}

function backwards(list: string, index: number): TakeError[] {
  const message = 'This one begins before the one ahead of it; put them in order.';
  return index < 0 ? [] : [{ code: 'ORDER', place: `${list}[${index}]`, message }];
}

/** From bar 1 beat 1 to the last message, counted at the quickest tempo. */
const lastBeats = ({ messages, tempos }: TakeExtent): number =>
  (most(messages, ({ timeUs }) => timeUs) * most(tempos, ({ bpm }) => bpm)) / 60e6;

const layersOf = ({ passages }: TakeExtent) => new Set(passages.map(({ layer }) => layer));
const subdivisionIn = (phrase: Phrase) => (layer: number) => gridAt(phrase, layer).subdivision;

/** The greatest, 0 at least. */
function most<T>(things: Iterable<T>, numberOf: (thing: T) => number): number {
  let found = 0;
  for (const thing of things) found = Math.max(found, numberOf(thing));
  return found;
}
