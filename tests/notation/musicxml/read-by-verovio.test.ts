import * as fc from 'fast-check';
import createVerovioModule from 'verovio/wasm';
import { VerovioToolkit } from 'verovio/esm';
import { beforeAll, describe, expect, it } from 'vitest';
import { writeMusicXml } from '../../../src/notation/musicxml/write-musicxml';
import { parseXml, type XmlElement } from '../../../src/notation/musicxml/xml-tree';
import { layerScore } from '../../../src/notation/score/layer-score';
import type { Score } from '../../../src/notation/score/score';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { arbitraryPhrase } from '../../phrase/arbitrary-phrase';
import { libraryPhrases } from '../../phrase/library-phrases';
import { longRunCount } from '../../run-count';
import { graceCount, notesInQuarters } from './score-in-quarters';

/** Half staff spaces from the bottom line, which MEI counts from, to the middle one. */
const BOTTOM_LINE = 4;

interface ReadNote {
  readonly place: number;
  readonly tuplet: string;
}

/** What Verovio 6.3 has read: notes by their ids, and when each sounds. */
interface VerovioReading {
  readonly notes: ReadonlyMap<string, ReadNote>;
  readonly onsets: ReadonlyMap<string, number>;
  readonly graces: number;
}

describe('MusicXML as Verovio reads it', () => {
  let toolkit: VerovioToolkit;
  beforeAll(async () => {
    toolkit = new VerovioToolkit(await createVerovioModule());
    toolkit.setOptions({ breaks: 'none', header: 'none', footer: 'none' });
  });

  function read(xml: string): VerovioReading {
    expect(toolkit.loadData(xml)).toBeTruthy();
    const mei = parseXml(toolkit.getMEI({}));
    if (!mei.ok) throw new Error(mei.errors[0]!.message);
    const notes = new Map<string, ReadNote>();
    let graces = 0;
    const gather = (element: XmlElement, tuplet: string, isInGrace = false) => {
      const { name, attributes } = element;
      const isGrace = isInGrace || attributes['grace'] !== undefined;
      if (name === 'note' && isGrace) graces++;
      else if (name === 'note')
        notes.set(attributes['xml:id']!, {
          place: Number(attributes['loc']) - BOTTOM_LINE,
          tuplet,
        });
      const inside = name === 'tuplet' ? `${attributes['num']}:${attributes['numbase']}` : tuplet;
      for (const child of element.children) gather(child, inside, isGrace);
    };
    gather(mei.value, '');
    const onsets = new Map<string, number>();
    for (const { on = [], qstamp } of toolkit.renderToTimemap({}) as readonly {
      on?: readonly string[];
      qstamp: number;
    }[])
      for (const id of on) onsets.set(id, qstamp);
    return { notes, onsets, graces };
  }

  /** Beats; its clock has 120 ticks a quarter. */
  const WITHIN = 0.01;

  function expectRead(score: Score): void {
    const { notes, onsets, graces } = read(writeMusicXml([score]));
    const due = notesInQuarters(score);
    expect([...notes.keys()].sort()).toEqual(due.map(({ id }) => id).sort());
    expect(graces).toBe(graceCount(score));
    const beat = score.meter.quartersPerBeat.valueOf();
    for (const { id, quarters, place, tuplet, hasGraces } of due) {
      expect({ id, ...notes.get(id) }).toEqual({ id, place, tuplet });
      // Verovio has grace notes begin on the beat and the main note after them.
      if (!hasGraces && Math.abs(onsets.get(id)! - quarters) > WITHIN * beat)
        expect({ id, onset: onsets.get(id) }).toEqual({ id, onset: quarters });
    }
  }

  it.each(libraryPhrases().map(({ name, text }) => [name, text] as const))(
    'each layer of %s has its onsets, places and tuplets, three bars of it',
    (_, text) => {
      const phrase = parsePhrase(text);
      if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
      const { layers } = phrase.value;
      for (let layer = 1; layer <= layers.length; layer++)
        expectRead(layerScore(phrase.value, layer, 3));
    },
  );

  it('lawOtherReadersAgree: onsets, places and tuplets of any phrase', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        expectRead(layerScore(phrase, phrase.layers.length, 2));
      }),
      { numRuns: longRunCount(300) },
    );
  });
});
