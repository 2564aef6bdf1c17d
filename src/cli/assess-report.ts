import {
  boundariesOf,
  byTempoWords,
  clickReturns,
  type Comparison,
  endsLost,
  type Figures,
  findings,
  followedWords,
  gateWords,
  gateOfTake,
  inLayerWords,
  limbName,
  meanReturnWords,
  MOST_FINDINGS,
  nameOfPad,
  padsWithoutLevels,
  padsWithoutLevelsWords,
  playedSwing,
  returnWords,
  scoreTake,
  setAsideWords,
  strokesSetAside,
  swingWords,
  type TakeScore,
  tempoLooks,
  tempoText,
  unmappedWords,
  wrongVoiceWords,
} from '../index';
import type { AssessedFile } from './assess-input';
import { fixed, percent, signed, table } from './table';
import { countOf } from '../words/words';

/** What `assess` prints for a person. Offsets are stroke minus note in ms, early negative. */
export function assessReport(assessed: AssessedFile, since?: readonly Comparison[]): string {
  const { plan, kit, layer, judgement, followed, strokes, warnings } = assessed;
  const { phrase } = plan;
  const score = scoreTake(judgement);
  const tempo = tempoText(plan.tempo.changes[0]!.bpm, phrase.meter);
  return [
    `${phrase.title} · layer ${layer}, ${phrase.layers[layer - 1]!.name} · ${tempo}`,
    `${verdictLine(score)}. Kit: ${kit.title}.`,
    ...setAsideWords(strokesSetAside(strokes.setAside)),
    ...unmappedWords(strokes.unmapped).map((words) => `${words} Give a kit file with --kit.`),
    ...warnings,
    '',
    ...sinceLines(since),
    ...findingLines(assessed),
    ...followedWords(judgement, followed, percent).map((words) => `  ${words}`),
    ...tempoLines(assessed),
    '',
    groupTable('layer', score.byLayer, (n) => `${n} ${phrase.layers[n - 1]!.name}`),
    '',
    groupTable('voice', score.byVoice, (voice) => voice),
    '',
    groupTable('limb', score.byLimb, limbName),
    '',
    ...score.wrongVoices.map(wrongVoiceWords),
    `Contrast ${fixed(score.dynamics.overall.contrastDb, 1)} dB, separation ${fixed(score.dynamics.overall.separation, 2)}.`,
    ...padsWithoutLevelsWords(padsWithoutLevels(judgement.notes), (pad) => nameOfPad(kit, pad)),
    ...swingWords(playedSwing(plan, judgement)),
    ...returnLines(assessed),
    gateLine(assessed),
  ].join('\n');
}

/** What has changed since an earlier take; nothing where none was named. */
function sinceLines(since: readonly Comparison[] | undefined): string[] {
  if (!since) return [];
  const lines = since.map(({ text }) => `  ${text}`);
  return lines.length > 0 ? lines : ['  Nothing that the earlier take was told can be compared.'];
}

/** What came of bars without a click: each, and all of them. */
function returnLines({ plan, judgement }: AssessedFile): string[] {
  const returns = clickReturns(plan, judgement.notes);
  return returns.length === 0 ? [] : [...returns.map(returnWords), meanReturnWords(returns)];
}

function findingLines({ plan, judgement, kit, slips }: AssessedFile): string[] {
  const all = findings(plan, judgement, (pad) => boundariesOf(kit, pad), { slips });
  const left = all.length - MOST_FINDINGS;
  const inLayer = inLayerWords(plan, judgement);
  return [
    ...(inLayer === undefined ? [] : [`  ${inLayer}`]),
    ...all.slice(0, MOST_FINDINGS).map(({ text, advice }) => `  ${text} ${advice}`),
    ...(left > 0 ? [`  ${countOf(left, 'more finding')} with --json.`] : []),
  ];
}

/** Of a take with several tempi: up to which the layer played last is even. */
function tempoLines({ plan, judgement, kit, trials, slips }: AssessedFile): string[] {
  const looks = tempoLooks(plan, judgement, (pad) => boundariesOf(kit, pad), trials, slips);
  const words = byTempoWords(looks);
  return words === undefined ? [] : [`  ${words}`];
}

function verdictLine({ overall, extras }: TakeScore): string {
  const { count, inTime, early, late, missed, wrongVoice } = overall;
  return `${count} notes: ${inTime} in time, ${early} early, ${late} late, ${wrongVoice} wrong voice, ${missed} missed; ${extras} extra`;
}

function groupTable<Key>(
  name: string,
  groups: ReadonlyMap<Key, Figures>,
  label: (key: Key) => string,
): string {
  return table(
    [name, 'notes', 'as written', 'mean', 'median', 'spread', 'robust', 'drift/min'],
    [...groups].map(([key, figures]) => [
      label(key),
      String(figures.count),
      percent(figures.asWritten),
      signed(figures.meanMs, 1),
      signed(figures.medianMs, 1),
      fixed(figures.spreadMs, 1),
      fixed(figures.robustSpreadMs, 1),
      signed(figures.driftMsPerMinute, 1),
    ]),
  );
}

const gateLine = ({ plan, judgement, trials, slips }: AssessedFile): string =>
  gateWords(gateOfTake(plan, judgement, trials), true, endsLost(slips));
