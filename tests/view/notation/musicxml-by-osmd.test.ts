import * as fc from 'fast-check';
import { OpenSheetMusicDisplay } from 'opensheetmusicdisplay';
import { describe, expect, it } from 'vitest';
import { displayPlace } from '../../../src/notation/musicxml/musicxml-names';
import { writeMusicXml } from '../../../src/notation/musicxml/write-musicxml';
import { layerScore } from '../../../src/notation/score/layer-score';
import type { Score } from '../../../src/notation/score/score';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { graceCount, notesInQuarters } from '../../notation/musicxml/score-in-quarters';
import { arbitraryPhrase } from '../../phrase/arbitrary-phrase';
import { longRunCount } from '../../run-count';

const LIBRARY = import.meta.glob<string>('../../../shared/phrases/*.json', {
  query: '?raw',
  import: 'default',
  eager: true,
});

/** OpenSheetMusicDisplay numbers steps by semitones and octaves from three below zero. */
const STEPS: Readonly<Record<number, string>> = {
  0: 'C',
  2: 'D',
  4: 'E',
  5: 'F',
  7: 'G',
  9: 'A',
  11: 'B',
};
const OCTAVE = 3;

/** A note in words: its bar from 0, and its onset there in thousandths of a quarter. */
const line = (bar: number, quarters: number, place: number | undefined, tuplet: string) =>
  `${bar} ${Math.round(quarters * 1000)} ${place} ${tuplet}`;

/**
 * Main notes as OpenSheetMusicDisplay 2.1 has read them, and how many grace notes it has. Onsets are within their bars:
 * where a grace note stands ahead of the last note of a bar, it takes the bar to be longer than its notes.
 */
async function read(xml: string) {
  const reader = new OpenSheetMusicDisplay(document.createElement('div'));
  await reader.load(xml);
  const notes = reader.Sheet.SourceMeasures.flatMap((measure, bar) =>
    measure.VerticalSourceStaffEntryContainers.flatMap(({ StaffEntries }) =>
      StaffEntries.flatMap((entry) =>
        entry.VoiceEntries.flatMap(({ Notes, Timestamp }) =>
          Notes.map((note) => ({ bar, quarters: 4 * Timestamp.RealValue, note })),
        ),
      ),
    ),
  ).filter(({ note }) => !note.isRest());
  const main = notes.filter(({ note }) => !note.IsGraceNote);
  return {
    graces: notes.length - main.length,
    lines: main
      .map(({ bar, quarters, note }) =>
        line(
          bar,
          quarters,
          displayPlace(
            STEPS[note.displayStepUnpitched as number] ?? '',
            note.displayOctaveUnpitched + OCTAVE,
          ),
          note.NoteTuplet ? String(note.NoteTuplet.TupletLabelNumber) : '',
        ),
      )
      .sort(),
  };
}

async function expectRead(score: Score): Promise<void> {
  const { graces, lines } = await read(writeMusicXml([score]));
  expect(lines).toEqual(
    notesInQuarters(score)
      .map(({ bar, inBar, place, tuplet }) => line(bar, inBar, place, tuplet.split(':')[0]!))
      .sort(),
  );
  expect(graces).toBe(graceCount(score));
}

describe('MusicXML as OpenSheetMusicDisplay reads it', () => {
  it.each(Object.entries(LIBRARY))(
    'each layer of %s has its onsets, places and tuplets',
    async (_, text) => {
      const phrase = parsePhrase(text);
      if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
      const { layers } = phrase.value;
      for (let layer = 1; layer <= layers.length; layer++)
        await expectRead(layerScore(phrase.value, layer));
    },
  );

  it('lawOtherReadersAgree: onsets, places and tuplets of any phrase', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryPhrase(), (phrase) =>
        expectRead(layerScore(phrase, phrase.layers.length, 2)),
      ),
      { numRuns: longRunCount(300) },
    );
  });
});
