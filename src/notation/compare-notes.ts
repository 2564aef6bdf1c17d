import { gridAt } from '../phrase/model/grid';
import type { Phrase } from '../phrase/model/phrase';
import { timeline } from '../phrase/layers/timeline';
import { lcm } from '../time/whole';
import { scoreContent, type ScoreContent } from './score-columns';

/** Notes of two score lines, by key, that the other phrase does not sound at that time. */
export interface ChangedNotes {
  readonly before: ReadonlySet<string>;
  readonly after: ReadonlySet<string>;
}

/** What is not the same in two phrases, both with all layers on, from bar 1 on and as written: before any swing. */
export const compareNotes = (before: Phrase, after: Phrase): ChangedNotes => ({
  before: notesUnlike(before, after),
  after: notesUnlike(after, before),
});

/** Notes of one phrase's score line, by key, that another does not sound at that time. */
export function notesUnlike(
  phrase: Phrase,
  other: Phrase,
  { columns, subdivision }: ScoreContent = scoreContent(phrase, phrase.layers.length),
): ReadonlySet<string> {
  const perBeat = lcm(subdivision, gridAt(other, other.layers.length).subdivision);
  const endBeats = (columns.at(-1)!.partial + 1) / subdivision;
  const [mine, theirs] = [phrase, other].map((one) => soundsBy(one, perBeat, endBeats));
  return new Set(
    columns.flatMap(({ partial, notes }) =>
      notes
        .filter(({ limb }) => {
          const at = timeKey((partial * perBeat) / subdivision, limb);
          return mine!.get(at) !== theirs!.get(at);
        })
        .map(({ key }) => key),
    ),
  );
}

const timeKey = (column: number, limb: string): string => `${column}/${limb}`;

/** Each main note's voice, level and grace notes, by time and limb. */
function soundsBy(phrase: Phrase, perBeat: number, endBeats: number): ReadonlyMap<string, string> {
  const layer = phrase.layers.length;
  const { subdivision, displace } = gridAt(phrase, layer);
  const cycles = Math.max(1, Math.ceil((endBeats * subdivision - displace) / phrase.cycle));
  const columnOf = (partial: number) => (partial * perBeat) / subdivision;
  const { notes } = timeline(phrase, layer, 0, cycles);
  const graces = new Map<number, typeof notes>();
  for (const note of notes) {
    if (note.graceStep > 0) graces.set(note.partial, [...(graces.get(note.partial) ?? []), note]);
  }
  return new Map(
    notes
      .filter(({ graceStep }) => graceStep === 0)
      .map(({ partial, limb, voice, level }) => {
        const ahead = (graces.get(partial) ?? [])
          .filter(({ graceOf }) => graceOf === limb)
          .map((grace) => `${grace.limb} ${grace.voice}`);
        return [timeKey(columnOf(partial), limb), [voice, level, ...ahead].join()];
      }),
  );
}
