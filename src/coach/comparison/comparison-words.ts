import { capital } from '../../words/words';
import { besideRest, sideText } from '../figure-words';
import type { Finding } from '../finding';
import { isOnTheClick } from '../timing/placings';
import { levelWords } from '../level-words';
import { unisonsName } from '../wording';
import type { ReadingFigures } from './reading';

/** A figure and the tempo that it was played at; the tempo is empty where both takes had the same. */
export interface AtTempo {
  readonly figures: ReadingFigures;
  readonly tempo: string;
}

/** What it is, and what it was. */
export function otherWords(told: Finding, before: AtTempo, after: AtTempo): string {
  const [now, was] = figureTexts(told, before.figures, after.figures);
  return `${now}${at(after)}, was ${was}${at(before)}.`;
}

export function sameWords(told: Finding, before: AtTempo, after: AtTempo): string {
  const [now] = figureTexts(told, before.figures, after.figures);
  return `${now}${at(after)}, about the same as before${at(before)}.`;
}

/** Of other findings about the same notes it says something else: what is told stands in one list. */
export const openWords = (told: Finding): string =>
  `${[subjectOf(told).replace(/[,:]$/, ''), ...figureOf(told)].join(', ')}: not enough strokes to say what changed.`;

/** Which figure of its subject a finding is of, where that is not where the strokes fall, and the subject does not say so. */
function figureOf({ code, facts }: Finding): string[] {
  switch (code) {
    case 'too loud':
    case 'too soft':
      return [code];
    case 'missed':
      return facts.name === undefined ? [] : [code];
    case 'spread apart':
      return ['spread'];
    default:
      return [];
  }
}

const at = ({ tempo }: AtTempo): string => (tempo === '' ? '' : ` at ${tempo}`);

/** What a finding is about. */
function subjectOf(told: Finding): string {
  switch (told.code) {
    case 'too loud':
    case 'too soft':
      return levelWords(told.facts.level, told.facts.name);
    case 'wrong voice':
      return `${capital(told.facts.struck)} struck for ${told.facts.written}`;
    case 'own notes wrong':
      return `“${told.facts.layerName}”`;
    case 'other tempo':
      return 'The tempo';
    case 'swing':
      return 'Swing';
    case 'spread':
      return 'Spread';
    case 'transition off':
      return `The move ${told.facts.name}`;
    case 'position off':
      return `${capital(told.facts.name)}:`;
    case 'unison off':
      return capital(unisonsName(told.facts.limbs));
    default:
      return told.facts && 'name' in told.facts && told.facts.name
        ? capital(told.facts.name)
        : 'Missed notes';
  }
}

/** What it is now, in a sentence, and what it was, short. */
function figureTexts(
  told: Finding,
  before: ReadingFigures,
  after: ReadingFigures,
): readonly [string, string] {
  const subject = subjectOf(told);
  if (before.kind === 'placing' && after.kind === 'placing') {
    const isOwn = isTold(told) && isOnClick(before, after);
    return isOwn
      ? placingTexts(subject, [before.ownMs, after.ownMs], sideText, 'on the click')
      : placingTexts(subject, [before.apartMs, after.apartMs], besideRest, 'with the rest');
  }
  if (before.kind === 'tempo' && after.kind === 'tempo')
    return tempoTexts(before.quickerBpm, after.quickerBpm);
  if (before.kind === 'swing' && after.kind === 'swing')
    return [`${subject} ${after.ratio.toFixed(1)} to 1`, before.ratio.toFixed(1)];
  if (before.kind === 'spread' && after.kind === 'spread') {
    const [now, was] = [after.ms, before.ms].map(Math.round);
    return [told.code === 'spread' ? `Spread ${now} ms` : `${subject}: spread ${now} ms`, `${was}`];
  }
  if (before.kind === 'share' && after.kind === 'share')
    return [
      `${subject}${shareText(told, `${after.times} of ${after.of}`)}`,
      `${before.times} of ${before.of}`,
    ];
  throw new Error(`${told.code}: ${before.kind} beside ${after.kind}`);
}

const isTold = (told: Finding): boolean =>
  told.facts !== undefined && 'isOwn' in told.facts && told.facts.isOwn;

type Placed = Extract<ReadingFigures, { kind: 'placing' }>;

/** Whether the rest is so near the click in both that the offsets from the click tell the same as those from the rest. */
function isOnClick(before: Placed, after: Placed): boolean {
  const apart = after.apartMs - before.apartMs;
  const own = after.ownMs - before.ownMs;
  return (
    isOnTheClick(after.restMs, after.noticeableMs) && Math.abs(own - apart) <= Math.abs(apart) / 2
  );
}

function placingTexts(
  subject: string,
  [was, now]: readonly [number, number],
  sideOf: (ms: number) => string,
  nowhere: string,
): readonly [string, string] {
  const whole = (ms: number) => Math.round(Math.abs(ms));
  const nowText = whole(now) === 0 ? nowhere : `${whole(now)} ms ${sideOf(now)}`;
  const isSameSide = was < 0 === now < 0 && whole(now) > 0;
  const wasText = isSameSide ? `${whole(was)}` : `${whole(was)} ms ${sideOf(was)}`;
  return [`${subject} ${nowText}`, wasText];
}

function tempoTexts(was: number, now: number): readonly [string, string] {
  // Whole, unless that would be the same number.
  const isFine = Math.round(Math.abs(was)) === Math.round(Math.abs(now));
  const amount = (bpm: number) => Number(Math.abs(bpm).toFixed(isFine ? 1 : 0));
  const side = (bpm: number) => `${amount(bpm)} bpm ${bpm > 0 ? 'quicker' : 'slower'}`;
  const isSameSide = was > 0 === now > 0 && amount(now) > 0;
  return [
    `You play ${amount(now) === 0 ? "at the click's tempo" : `${side(now)} than the click`}`,
    isSameSide ? `${amount(was)}` : side(was),
  ];
}

function shareText({ code, facts }: Finding, count: string): string {
  switch (code) {
    case 'missed':
      return facts.name === undefined ? `: ${count}` : `: missed ${count}`;
    case 'wrong voice':
      return `: ${count}`;
    case 'own notes wrong':
      return `: ${count} notes not as written`;
    default:
      return ` ${code}: ${count}`;
  }
}
