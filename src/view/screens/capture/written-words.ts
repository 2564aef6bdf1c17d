import type { CaptureFinding } from '../../../capture/capture-finding';
import type { WrittenDown } from '../../../practice/capture/write-down';
import { tempoText } from '../../phrase/beat-word';
import { bpmText } from '../../figures/format';
import { subdivisionWord } from '../../phrase/subdivision-word';
import { swingText } from '../../../phrase/swing';

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

/** What was written down, in one sentence. */
export function writtenWords({ phrase, rounds }: WrittenDown): string {
  const { meter, subdivision, cycle, swing, tempoBpm } = phrase;
  const partials = subdivisionWord(meter, subdivision);
  const what = /to the beat$/.test(partials)
    ? `${cycle} partials, ${partials}`
    : `${cycle} ${partials}`;
  const swung = swing ? `, swung ${swingText(swing)}` : '';
  return `A cycle of ${what}${swung}, played ${rounds} times round at ${tempoText(Number(bpmText(tempoBpm)), meter)}.`;
}

/** What to look at before trusting it. The hands are told apart from the rest: no kit can hear them. */
export function unsureWords(findings: readonly CaptureFinding[]): string {
  const unsure = findings.filter(({ sure }) => !sure).map(({ about }) => about);
  const heard = unsure.filter((about) => about !== 'sticking').map((about) => ABOUT[about]);
  const hands = unsure.includes('sticking')
    ? ' The sticking is only a likely one, since a kit does not hear which hand struck.'
    : '';
  if (heard.length === 0)
    return `${hands ? 'It is sure of what it heard.' : 'It is sure of everything it found.'}${hands}`;
  const last = heard.pop()!;
  const list = heard.length === 0 ? last : `${heard.join(', ')} and ${last}`;
  return `It is not sure of ${list}: look at that before you practise it.${hands}`;
}

/** What a finding found, without its heading. @example foundWords('Not sure of the tempo: 92 bpm.') // => '92 bpm' */
export const foundWords = (sentence: string): string => sentence.replace(/^[^:]*: |\.$/g, '');
