import { placesWords, roundsWords } from '../../../capture/transcribe';
import type { CaptureFinding } from '../../../capture/capture-finding';
import type { Phrase } from '../../../phrase/model/phrase';
import type { CaptureReport } from '../../../capture/capture';
import { tempoText } from '../../../phrase/model/beat-word';
import { positionColumns } from '../../../notation/position-columns';
import { subdivisionWord } from '../../../phrase/model/subdivision-word';
import { swingText } from '../../../phrase/model/swing';
import { list } from '../../../words/words';

/** The things found, as the player would name them. */
export const ABOUT: Readonly<Record<CaptureFinding['about'], string>> = {
  tempo: 'tempo',
  'meter position': 'where the bar begins',
  subdivision: 'subdivision',
  cycle: 'cycle',
  notes: 'notes',
  levels: 'levels',
  sticking: 'sticking',
};

/** The same within a sentence. */
const OF: Readonly<Record<CaptureFinding['about'], string>> = {
  tempo: 'the tempo',
  'meter position': 'where the bar begins',
  subdivision: 'the subdivision',
  cycle: 'the cycle',
  notes: 'the notes',
  levels: 'the levels',
  sticking: 'the sticking',
};

const IN_THE_SENTENCE: ReadonlySet<CaptureFinding['about']> = new Set([
  'tempo',
  'subdivision',
  'cycle',
]);

/** What was written down, in one sentence that claims no more than is sure. */
export function writtenWords({
  phrase,
  rounds,
  findings,
}: Pick<CaptureReport, 'phrase' | 'rounds' | 'findings'>): string {
  const { meter, subdivision, cycle, swing, tempoBpm } = phrase;
  const partials = subdivisionWord(meter, subdivision);
  const what = /to the beat$/.test(partials)
    ? `${cycle} partials, ${partials}`
    : `${cycle} ${partials}`;
  const swung = swing ? `, swung ${swingText(swing)}` : '';
  const whole = Math.round(tempoBpm);
  const at = `${whole === tempoBpm ? '' : 'about '}${tempoText(whole, meter)}`;
  const isSure = findings.every(({ about, sure }) => sure || !IN_THE_SENTENCE.has(about));
  return `${isSure ? 'A' : 'Perhaps a'} cycle of ${what}${swung}, played ${roundsWords(rounds)} at ${at}.`;
}

/**
 * What to look at before trusting it. The hands are told apart from the rest: no kit can hear them; and single notes
 * from the rest of the notes.
 */
export function unsureWords({
  findings,
  inSomeRounds,
  leftOut,
}: Pick<CaptureReport, 'findings' | 'inSomeRounds' | 'leftOut'>): string {
  const single = [
    ...(inSomeRounds.length > 0
      ? [` Struck in some rounds only: ${placesWords(inSomeRounds)}.`]
      : []),
    ...(leftOut.length > 0
      ? [` Left out, since it came in too few rounds: ${placesWords(leftOut)}.`]
      : []),
  ].join('');
  return `${unsureSubjects(findings)}${single}`;
}

function unsureSubjects(findings: readonly CaptureFinding[]): string {
  const unsure = findings.filter(({ sure }) => !sure).map(({ about }) => about);
  const heard = unsure.filter((about) => about !== 'sticking').map((about) => OF[about]);
  const hands = unsure.includes('sticking')
    ? ' The sticking is a guess: a kit does not hear which hand struck.'
    : '';
  if (heard.length === 0)
    return `${hands ? 'It is sure of what it heard.' : 'It is sure of everything it found.'}${hands}`;
  return `It is not sure of ${list(heard)}: look at that before you practise it.${hands}`;
}

/** Which limbs were written down, partial by partial of the cycle: "R+K - L". */
export const stickingFinding = (phrase: Phrase): string =>
  positionColumns(phrase, phrase.layers.length)
    .map(({ notes }) => notes.map(({ sticking }) => sticking).join('+') || '-')
    .join(' ');
