import * as fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { VerovioToolkit } from 'verovio/esm';
import { readMidiFile } from '../../../src/take/read-midi-file';
import { KEY_OF_VOICE } from '../../../src/notation/general-midi-keys';
import { writeMei } from '../../../src/notation/mei/write-mei';
import { layerScore } from '../../../src/notation/score/layer-score';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { expand } from '../../../src/phrase/layers/expand';
import { gridAt } from '../../../src/phrase/model/grid';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { arbitraryPhrase } from '../../phrase/arbitrary-phrase';
import { libraryPhrases } from '../../phrase/library-phrases';
import { phraseOf } from '../../phrase/phrase-of';
import { runCount } from '../../run-count';
import { createEngraver } from '../engraver';

let engraver: VerovioToolkit;
beforeAll(async () => {
  engraver = await createEngraver();
});

interface Heard {
  /** Quarters from the first note of the file's first bar. */
  readonly quarters: number;
  readonly key: number;
}

/** What Verovio plays of a MEI file: each repeat twice. */
function heard(mei: string): readonly Heard[] {
  expect(engraver.loadData(mei)).toBeTruthy();
  const bytes = Buffer.from(engraver.renderToMIDI(), 'base64');
  const file = readMidiFile(new Uint8Array(bytes));
  if (!file.ok) throw new Error(file.errors[0]!.message);
  const { division, messages } = file.value;
  if (division.kind !== 'musical') throw new Error('expected ticks of a quarter');

  return messages
    .filter(({ status, data2 }) => (status & 0xf0) === 0x90 && data2 > 0)
    .map(({ tick, data1 }) => ({ quarters: tick / division.ticksPerQuarter, key: data1 }));
}

/** Verovio 6.3 plays 120 ticks a quarter, so that a septuplet is up to 0.007 off; after grace notes it plays a little late. */
const NEAR = 0.011;
const AFTER_GRACES = 0.12;

/** Each main note of the target is heard where and as what it is written, and nothing else but grace notes is. */
function lawHeardAsWritten(phrase: Phrase, layer: number, bars: number): void {
  const score = layerScore(phrase, layer, bars);
  const { barPartials, subdivision } = gridAt(phrase, layer);
  const quarter = phrase.meter.quartersPerBeat.valueOf() / subdivision;
  const first = score.bars[0]!.partial;
  const notes = expand(phrase, layer, { bars });
  const written = notes.map((note) => ({
    partial: (note.bar - 1) * barPartials + note.beat.sub(1).mul(subdivision).valueOf(),
    key: KEY_OF_VOICE.get(note.voice)!,
    isGrace: note.graceStep > 0,
  }));
  const again = score.isRepeated
    ? written
        .filter(({ partial }) => partial >= 0)
        .map((note) => ({ ...note, partial: note.partial + bars * barPartials }))
    : [];
  const due = [...written, ...again];
  const graced = new Set(due.filter(({ isGrace }) => isGrace).map(({ partial }) => partial));
  const left = [...heard(writeMei(score))];
  for (const { partial, key, isGrace } of due) {
    if (isGrace) continue;
    const at = (partial - first) * quarter;
    const near = graced.has(partial) ? AFTER_GRACES : NEAR;
    const i = left.findIndex((note) => note.key === key && Math.abs(note.quarters - at) <= near);
    expect(i, `${key} at ${at} of ${JSON.stringify(left.slice(0, 20))}`).toBeGreaterThanOrEqual(0);
    left.splice(i, 1);
  }
  expect(left).toHaveLength(due.filter(({ isGrace }) => isGrace).length);
}

describe('MEI, read back by Verovio', () => {
  for (const { name, text } of libraryPhrases()) {
    const parsed = parsePhrase(text);
    if (!parsed.ok) throw new Error(name);
    parsed.value.layers.forEach((_, i) =>
      it(`${name}, layer ${i + 1}: onsets and keys of the target`, () => {
        const { bars } = layerScore(parsed.value, i + 1);
        lawHeardAsWritten(
          parsed.value,
          i + 1,
          Math.min(8, bars.filter(({ number }) => number > 0).length),
        );
      }),
    );
  }

  it('lawHeardAsWritten', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), fc.integer({ min: 1, max: 3 }), (phrase, bars) =>
        lawHeardAsWritten(phrase, phrase.layers.length, bars),
      ),
      { numRuns: runCount(25, 12) },
    );
  });
});

describe('MEI as text', () => {
  it('a title with markup stays text', () => {
    const mei = writeMei(layerScore(phraseOf({ title: '<script>alert("R & L")</script>' }), 1));
    expect(mei).toContain(
      '<title>&lt;script&gt;alert(&quot;R &amp; L&quot;)&lt;/script&gt;</title>',
    );
    expect(mei).not.toContain('<script');
  });

  it('every id stands once, and every reference points to one', () => {
    const mei = writeMei(layerScore(phraseOf({ grouping: 'lR L K - F', cycle: 5 }), 1));
    const ids = [...mei.matchAll(/xml:id="([^"]*)"/g)].map(([, id]) => id!);
    expect(new Set(ids).size).toBe(ids.length);
    const known = new Set(ids);
    const references = [...mei.matchAll(/(?:startid|endid)="#([^"]*)"/g)].map(([, id]) => id!);
    expect(references.length).toBeGreaterThan(0);
    expect(references.filter((id) => !known.has(id))).toEqual([]);
  });

  it('flams with a slash, drags under a beam, ghosts in parentheses, the hat by sign and key', () => {
    const phrase = phraseOf({
      grouping: 'lR rrL R L',
      layers: [
        {
          name: 'All',
          changes: [
            { where: { positions: [3] }, set: { voice: 'hi-hat open', level: 'accent' } },
            { where: { positions: [4] }, set: { voice: 'hi-hat closed', level: 'ghost' } },
          ],
        },
      ],
    });
    const mei = writeMei(layerScore(phrase, 1, 1));
    expect(mei).toContain('dur="8" stem.mod="1slash"');
    expect(mei).toMatch(/<graceGrp[^>]*><beam><note[^>]*dur="16"/);
    expect(mei).toMatch(/head.mod="paren" pnum="42"[^>]*><artic artic="stop"/);
    expect(mei).toMatch(/pnum="46"[^>]*><artic artic="open" place="above"\/><artic artic="acc"/);
  });
});
