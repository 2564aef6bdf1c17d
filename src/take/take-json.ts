import * as v from 'valibot';
import { fileIssues } from '../kit/file-issues';
import { checkKit } from '../kit/parse-kit';
import { parsePhrase } from '../phrase/file/parse-phrase';
import { parseBeats } from '../time/beats';
import { bad, good, type Result } from '../time/result';
import { charactersDue, silenceErrors, takeErrors, type TakeError } from './judgeable-take';
import type { Take, TakeTrials } from './take';
import { TAKE_VERSION, TakeFile } from './take-file';

/** Chosen, not measured: room for the most messages a take may have. */
const MOST_CHARACTERS = 8_000_000;

/**
 * The text of a take file; `parseTake` reads the same take back.
 *
 * @example parseTake(writeTake({ startedAt: '2026-05-01T10:00:00.000Z', phraseText: writePhrase(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value), passages: [{ fromBar: 1, layer: 1 }], tempos: [{ fromBeat: beats(0), bpm: 90 }], countInBars: 1, endUs: 9000, deviceOffsetMs: 0, toleranceMs: undefined, kit: GENERAL_MIDI, messages: [] })).value.endUs // => 9000
 */
export function writeTake(take: Take): string {
  const { title, opening, pads, crosstalk } = take.kit;
  const file: v.InferOutput<typeof TakeFile> = {
    take: TAKE_VERSION,
    startedAt: take.startedAt,
    ...(take.player === undefined ? {} : { player: take.player }),
    ...(take.trials === undefined ? {} : { trials: trialsFile(take.trials) }),
    ...(take.guess === undefined ? {} : { guess: take.guess }),
    ...(take.exercise === undefined ? {} : { exercise: take.exercise }),
    phrase: take.phraseText,
    passages: [...take.passages],
    tempos: take.tempos.map(({ fromBeat, bpm }) => ({ fromBeat: fromBeat.toFraction(), bpm })),
    countInBars: take.countInBars,
    endUs: Math.max(0, take.endUs),
    ...(take.deviceOffsetMs === 0 ? {} : { deviceOffsetMs: take.deviceOffsetMs }),
    ...(take.toleranceMs === undefined ? {} : { toleranceMs: take.toleranceMs }),
    ...(take.reachMs === undefined ? {} : { reachMs: take.reachMs }),
    ...(take.silentBars === undefined ? {} : { silentBars: { ...take.silentBars } }),
    kit: {
      title,
      opening,
      pads: [...pads],
      ...(crosstalk === undefined ? {} : { crosstalk: [...crosstalk] }),
    },
    messages: take.messages.map(({ timeUs, status, data1, data2 }) => [
      timeUs,
      status,
      data1,
      data2,
    ]),
    ...(take.commands && { commands: [...take.commands] }),
    ...(take.spotsUs && { spotsUs: [...take.spotsUs] }),
  };
  // Hours of silence are judged in long files only: blanks make it one.
  return `${JSON.stringify(file).padEnd(charactersDue(take) - 1)}\n`;
}

const trialsFile = ({ requestsUs, leftOutBars, takenBack, ...shares }: TakeTrials) => ({
  ...shares,
  ...(requestsUs && { requestsUs: [...requestsUs] }),
  ...(leftOutBars && { leftOutBars: [...leftOutBars] }),
  ...(takenBack && { takenBack: [...takenBack] }),
});

/** A take file's text, checked. @example parseTake('[').ok // => false */
export function parseTake(text: string): Result<Take, TakeError> {
  if (text.length > MOST_CHARACTERS) {
    const message = `The file has ${text.length} characters; at most ${MOST_CHARACTERS} are read.`;
    return bad({ code: 'TOO_LARGE', place: '', message });
  }
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    const message = `This text is not JSON (${(error as Error).message}); correct it there, or export the take again.`;
    return bad({ code: 'NOT_JSON', place: '', message });
  }
  const version = v.safeParse(v.object({ take: v.number() }), data);
  if (version.success && version.output.take > TAKE_VERSION) {
    const message = `The file is of version ${version.output.take}, this program reads up to ${TAKE_VERSION}; use a newer one.`;
    return bad({ code: 'VERSION', place: 'take', message });
  }
  const parsed = v.safeParse(TakeFile, data);
  if (!parsed.success)
    return bad(...fileIssues(parsed.issues).map((issue) => ({ code: 'SHAPE' as const, ...issue })));
  return takeOf(parsed.output, text.length);
}

function takeOf(file: v.InferOutput<typeof TakeFile>, characters: number): Result<Take, TakeError> {
  const kit = checkKit(file.kit);
  if (!kit.ok)
    return bad(
      ...kit.errors.map(({ place, message }) => ({
        code: 'KIT' as const,
        place: `kit.${place}`,
        message,
      })),
    );
  const tempos = file.tempos.map(({ fromBeat, bpm }) => ({ fromBeat: parseBeats(fromBeat)!, bpm }));
  const take: Take = {
    startedAt: file.startedAt,
    player: file.player,
    trials: file.trials,
    guess: file.guess,
    ...(file.exercise && { exercise: file.exercise }),
    phraseText: file.phrase,
    passages: file.passages,
    tempos,
    countInBars: file.countInBars,
    endUs: file.endUs,
    deviceOffsetMs: file.deviceOffsetMs ?? 0,
    toleranceMs: file.toleranceMs,
    reachMs: file.reachMs,
    ...(file.silentBars && { silentBars: file.silentBars }),
    kit: kit.value,
    messages: file.messages.map(([timeUs, status, data1, data2]) => ({
      timeUs,
      status,
      data1,
      data2,
    })),
    ...(file.commands && { commands: file.commands }),
    ...(file.spotsUs && { spotsUs: file.spotsUs }),
  };
  const phrase = parsePhrase(file.phrase);
  const errors = takeErrors(take, phrase.ok ? phrase.value : undefined);
  if (errors.length === 0 && phrase.ok)
    errors.push(...silenceErrors(take, phrase.value, characters));
  return errors.length > 0 ? bad(...errors) : good(take);
}
