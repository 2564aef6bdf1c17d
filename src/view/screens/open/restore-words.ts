import { MOST_CAPTURES } from '../../../practice/capture/capture-history.svelte';
import type { Fate } from '../../../store/backup/compare-entries';
import { FATES } from '../../../store/backup/compare-entries';
import type { RestorePlan } from '../../../store/backup/restore-plan';
import type { TableName } from '../../../store/tables';

/** The summaries go with the takes. */
const KINDS: readonly (readonly [TableName, string])[] = [
  ['takes', 'Takes'],
  ['phrases', 'Phrases'],
  ['kits', 'Kits'],
  ['plays', 'Captures'],
  ['journal', 'Parts of takes that were cut short'],
];

const FATE_WORDS: Readonly<Record<Fate, string>> = {
  added: 'new',
  present: 'here already',
  mended: 'damaged here and whole in the backup',
  differing: 'different here',
  damaged: 'damaged and left out',
  beyond: `left out, since the newest ${MOST_CAPTURES} are kept`,
};

/** What a backup holds and what becomes of it, a line for each kind that there is any of. */
export function planLines({ tallies, newSettings, otherSettings }: RestorePlan): string[] {
  const ofTables = KINDS.map(([table, name]) => [name, countsIn(tallies[table])] as const);
  const settings = [
    [newSettings.size, FATE_WORDS.added],
    [otherSettings.size, FATE_WORDS.differing],
  ] as const;
  return [...ofTables, ['Offsets and choices', settings] as const].flatMap(([name, counts]) => {
    const parts = counts
      .filter(([count]) => count > 0)
      .map(([count, words]) => `${count} ${words}`);
    return parts.length === 0 ? [] : [`${name}: ${parts.join(', ')}.`];
  });
}

const countsIn = (tally: RestorePlan['tallies'][TableName]) =>
  FATES.map((fate) => [tally[fate], FATE_WORDS[fate]] as const);

/** Whether putting it back would change anything. */
export const changesAnything = (plan: RestorePlan): boolean =>
  plan.records.length + plan.differing.length + plan.newSettings.size + plan.otherSettings.size > 0;
