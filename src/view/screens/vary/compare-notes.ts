import { gridAt } from '../../../phrase/model/grid';
import type { Phrase } from '../../../phrase/model/phrase';
import { timeline } from '../../../phrase/layers/timeline';
import { lcm } from '../../../time/whole';
import { scoreContent } from '../../../notation/score-columns';

/** Notes of two score lines, by key, that the other phrase does not sound at that time. */
export interface ChangedNotes {
  readonly before: ReadonlySet<string>;
  readonly after: ReadonlySet<string>;
}

/** What is not the same in two phrases, both with all layers on, from bar 1 on and as written: before any swing. */
export function compareNotes(before: Phrase, after: Phrase): ChangedNotes {
  const lines = [before, after].map((phrase) => scoreContent(phrase, phrase.layers.length));
  const perBeat = lcm(lines[0]!.subdivision, lines[1]!.subdivision);
  const endBeats = Math.max(
    ...lines.map(({ columns, subdivision }) => (columns.at(-1)!.partial + 1) / subdivision),
  );
  const sounds = [before, after].map((phrase) => soundsBy(phrase, perBeat, endBeats));
  const changed = (mine: number, theirs: number) =>
    new Set(
      lines[mine]!.columns.flatMap(({ partial, notes }) =>
        notes
          .filter(({ limb }) => {
            const at = timeKey((partial * perBeat) / lines[mine]!.subdivision, limb);
            return sounds[mine]!.get(at) !== sounds[theirs]!.get(at);
          })
          .map(({ key }) => key),
      ),
    );
  return { before: changed(0, 1), after: changed(1, 0) };
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
