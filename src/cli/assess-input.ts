import {
  alignedMessages,
  type AssessedMessages,
  assessMessages,
  followSlips,
  hitWindow,
  type HitWindow,
  type Judgement,
  type Kit,
  kitFor,
  layerShape,
  type MidiFile,
  parsePhrase,
  type Phrase,
  type Plan,
  playedTo,
  type RawMessage,
  type Take,
  takeErrors,
  type TakeTrials,
  takeOfMidiFile,
  type Slip,
  slipsInTake,
  tempoMap,
  type WindowSettings,
  struckNotes,
} from '../index';
import { InputError } from './input-error';

export interface AssessRequest {
  /** For messages. */
  readonly takeName: string;
  readonly file: MidiFile;
  readonly phrase: Phrase;
  /** 1-based; as the file's markers say unless given, else the last. */
  readonly layer: number | undefined;
  /** As the file's markers say unless given, else none. */
  readonly countInBars: number | undefined;
  readonly tempoBpm: number | undefined;
  readonly windows: WindowSettings;
  readonly kit: Kit | undefined;
}

/** A take as the app saved it, which says itself what it was played to. */
export interface TakeRequest {
  /** For messages. */
  readonly takeName: string;
  readonly take: Take;
  /** What is given here counts in place of what the take says. */
  readonly windows: WindowSettings;
  readonly kit: Kit | undefined;
}

export interface AssessedFile extends AssessedMessages {
  readonly plan: Plan;
  /** The layer that was played last, 1-based. */
  readonly layer: number;
  readonly kit: Kit;
  /** How far counts as in time, and how far answers at all, at the layer's partial. */
  readonly window: HitWindow;
  /** Where the place was lost. */
  readonly slips: readonly Slip[];
  /** The same take against what was played there; undefined where none was lost. */
  readonly followed: Judgement | undefined;
  /** How the gate looks at it. */
  readonly trials: TakeTrials;
  /** What is odd about the figures that were given, in sentences. */
  readonly warnings: readonly string[];
}

/**
 * A MIDI file judged against a phrase's layer. Without a kit the file's notes choose one: the
 * edge-and-rim layout or General MIDI percussion (see kitFor).
 *
 * @throws InputError when the file tells no tempo and none was given, or lasts longer than is judged.
 */
export function assessFile(request: AssessRequest): AssessedFile {
  const { takeName, file, phrase, tempoBpm, windows } = request;
  const { countInBars, passages } = playedTo(file, phrase, request);
  const taken = takeOfMidiFile(file, { meter: phrase.meter, countInBars, tempoBpm });
  if (!taken.ok) throw new InputError(`${takeName}: ${taken.errors[0]!.message}`);
  const { messages, tempos } = taken.value;
  const errors = takeErrors({ passages, tempos, messages }, phrase);
  const tooLong = errors.find(({ code }) => code === 'TOO_LARGE');
  if (tooLong) throw new InputError(`${takeName}: ${tooLong.message}`);
  const kit = request.kit ?? kitFor(struckNotes(file.messages));
  const plan: Plan = {
    phrase,
    passages,
    tempo: tempoMap(tempos),
    windows,
  };
  return assessed(plan, messages, kit);
}

/**
 * A take of the app's judged again, as the app judges it.
 *
 * @throws InputError when the phrase in it cannot be read.
 */
export function assessTake({ takeName, take, windows, kit = take.kit }: TakeRequest): AssessedFile {
  const phrase = parsePhrase(take.phraseText);
  if (!phrase.ok) throw new InputError(`${takeName}: phrase: ${phrase.errors[0]!.message}`);
  const { toleranceMs = take.toleranceMs, reachMs = take.reachMs } = windows;
  const plan: Plan = {
    phrase: phrase.value,
    passages: take.passages,
    tempo: tempoMap(take.tempos),
    windows: { toleranceMs, reachMs },
    silentBars: take.silentBars,
  };
  return assessed(plan, alignedMessages(take), kit, take.trials);
}

function assessed(
  plan: Plan,
  messages: readonly RawMessage[],
  kit: Kit,
  trials: TakeTrials = {},
): AssessedFile {
  const answer = assessMessages(plan, messages, kit);
  const layer = answer.judgement.notes.at(-1)?.due.layer ?? plan.passages[0]!.layer;
  const partialBeats = layerShape(plan.phrase, layer).partialBeats.valueOf();
  const window = hitWindow((partialBeats * 60e6) / plan.tempo.changes[0]!.bpm, plan.windows);
  const warnings = window.toleranceUs > window.reachUs ? [beyondReach(window)] : [];
  const slips = slipsInTake(plan, answer.strokes, kit);
  const followed = followSlips(plan, answer.strokes, kit, slips);
  return { plan, kit, layer, window, slips, followed, trials, warnings, ...answer };
}

const beyondReach = ({ toleranceUs, reachUs }: HitWindow): string =>
  `The tolerance of ${toleranceUs / 1000} ms is more than the reach of ${reachUs / 1000} ms: a stroke farther off answers no note, so none is early or late. Give a smaller --tolerance or a larger --reach.`;
