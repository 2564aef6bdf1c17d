import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writeMusicXml } from '../../../src/notation/musicxml/write-musicxml';
import { layerScore } from '../../../src/notation/score/layer-score';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { arbitraryPhrase } from '../../phrase/arbitrary-phrase';
import { libraryPhrases } from '../../phrase/library-phrases';
import { layeredPhrase, phraseOf } from '../../phrase/phrase-of';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { longRunCount } from '../../run-count';
import { structureFaults } from './structure-faults';
import { hasSchema, schemaFaults } from './validate-musicxml';

const libraryPhrase = (text: string): Phrase => {
  const phrase = parsePhrase(text);
  if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
  return phrase.value;
};

const faultsOf = (xml: string) => [...schemaFaults(xml), ...structureFaults(xml)];

describe('MusicXML 4.0', () => {
  if (!hasSchema)
    process.stdout.write(
      'No ../shared/schemas/musicxml-4.0 beside the checkout: structure alone is checked.',
    );

  it.each(libraryPhrases().map(({ name, text }) => [name, text] as const))(
    'each layer of %s, and all of them, are valid and whole',
    (_, text) => {
      const phrase = libraryPhrase(text);
      const scores = phrase.layers.map((__, i) => layerScore(phrase, i + 1));
      for (const score of scores) expect(faultsOf(writeMusicXml([score]))).toEqual([]);
      expect(faultsOf(writeMusicXml(scores))).toEqual([]);
    },
  );

  it('lawValidAndWhole: whatever the phrase', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), fc.integer({ min: 1, max: 3 }), (phrase, bars) => {
        const scores = phrase.layers.map((_, i) => layerScore(phrase, i + 1, bars));
        expect(faultsOf(writeMusicXml([scores.at(-1)!]))).toEqual([]);
        expect(faultsOf(writeMusicXml(scores))).toEqual([]);
      }),
      { numRuns: longRunCount(300) },
    );
  });

  // Engraver's choices of engraving practice and of the MusicXML 4.0 schema's own remarks, one a line.
  const signs = writeMusicXml([
    layerScore(
      layeredPhrase({ grouping: 'lR llL R+K F', swing: '2:1', tempoBpm: 96 }, [
        { where: { limb: 'L' }, set: { level: 'ghost' } },
        { where: { positions: [3], limb: 'R' }, set: { voice: 'hi-hat open', level: 'accent' } },
        { where: { positions: [1] }, set: { voice: 'hi-hat closed' } },
        { where: { limb: 'F' }, set: { voice: 'hi-hat foot splash' } },
        { pickup: [{ partialsBefore: 1, limb: 'L' }] },
      ]),
      2,
    ),
  ]);
  const note = (id: string) => new RegExp(`<note id="${id}".*</note>`).exec(signs)![0];
  it.each([
    [
      'the key of General MIDI, counted from 1, on channel 10',
      '<midi-instrument id="D-hi-hat-open"><midi-channel>10</midi-channel><midi-unpitched>47</midi-unpitched>',
      signs,
    ],
    ['a clef for drums', '<clef><sign>percussion</sign></clef>', signs],
    [
      'tempo as it is written and as it sounds',
      '<metronome><beat-unit>quarter</beat-unit><per-minute>96</per-minute></metronome></direction-type><sound tempo="96"/>',
      signs,
    ],
    [
      'swing in words and as it sounds',
      '<words>Swing 2:1</words></direction-type><sound><swing><first>2</first><second>1</second>',
      signs,
    ],
    ['a pickup that is not counted', '<measure number="0" implicit="yes">', signs],
    ['a repeat', '<repeat direction="forward"/>', signs],
    [
      'the name of the layer over bar 1',
      '<direction placement="above"><direction-type><rehearsal>Layer 2</rehearsal>',
      signs,
    ],
    ['the title', '<work-title>Breakwater</work-title>', signs],
    ['a flam slashed', '<grace slash="yes"/>', note('l2-b1-p0-R-g1')],
    [
      'a drag beamed',
      '<grace/><unpitched><display-step>C</display-step><display-octave>5</display-octave></unpitched><instrument id="D-snare"/><voice>1</voice><type>16th</type><stem>up</stem><notehead>normal</notehead><beam number="1">begin</beam><beam number="2">begin</beam>',
      note('l2-b1-p1-L-g2'),
    ],
    ['a ghost in parentheses', '<notehead parentheses="yes">normal</notehead>', note('l2-b1-p1-L')],
    [
      'an accent, and an open hat',
      '<articulations><accent placement="above"/></articulations><technical><open placement="above"/></technical>',
      note('l2-b1-p2-R'),
    ],
    [
      'a closed hat beside open ones',
      '<technical><stopped placement="above"/></technical>',
      note('l2-b1-p0-R'),
    ],
    ['the drum itself', '<instrument id="D-hi-hat-open"/>', note('l2-b1-p2-R')],
    [
      'sticking and count as text',
      '<lyric number="1" placement="below"><syllabic>single</syllabic><text>R+K</text></lyric><lyric number="2" placement="below"><syllabic>single</syllabic><text>&amp;</text></lyric>',
      note('l2-b1-p2-R'),
    ],
    [
      'the splash of a foot under the staff',
      '<technical><open placement="below"/></technical>',
      note('l2-b1-p3-F'),
    ],
    [
      'feet with stems down in a voice of their own',
      '<voice>2</voice><type>16th</type><stem>down</stem>',
      note('l2-b1-p3-F'),
    ],
  ])('has %s', (_, part, where) => {
    expect(where).toContain(part);
  });

  it('ends a bracket ahead of the last note or rest of its cycle, in one voice and never at a way back', () => {
    const xml = writeMusicXml([layerScore(phraseOf({ grouping: 'R L R L K' }), 1)]);
    const found = [...xml.matchAll(/type="(start|stop)" number="1"|<note id="(.*?)"|<backup/g)]
      .map(([whole, type, id]) => type ?? id ?? whole)
      .slice(0, 9);
    expect(found).toEqual([
      'start',
      'l1-b1-p0-R',
      'l1-b1-p1-L',
      'l1-b1-p2-R',
      'l1-b1-p3-L',
      'stop',
      'l1-b1-p4-hands',
      'start',
      'l1-b1-p5-R',
    ]);
  });

  it('divisions are whole for elevens of a sixteenth, too', () => {
    const xml = writeMusicXml([
      layerScore(phraseOf({ meter: '7/16', subdivision: 11, grouping: 'R', tempoBpm: 60 }), 1),
    ]);
    expect(xml).toContain('<divisions>55440</divisions>');
    expect(faultsOf(xml)).toEqual([]);
  });

  it.each([
    [
      'a "quoted" <script>alert(1)</script> & more',
      'a &quot;quoted&quot; &lt;script&gt;alert(1)&lt;/script&gt; &amp; more',
    ],
    ['bell \u0007 and half a pair \uD83D', 'bell \uFFFD and half a pair \uFFFD'],
    ['Łódź 🥁 ]]>', 'Łódź 🥁 ]]&gt;'],
  ])('a title such as %j is text', (title, written) => {
    const xml = writeMusicXml([layerScore(phraseOf({ title }), 1)]);
    expect(xml).toContain(`<work-title>${written}</work-title>`);
    expect(faultsOf(xml)).toEqual([]);
  });

  it('several layers are sections of one part with their names over them', () => {
    const phrase = layeredPhrase({}, [{ where: { limb: 'R' }, set: { level: 'accent' } }]);
    const xml = writeMusicXml([layerScore(phrase, 1), layerScore(phrase, 2)]);
    expect([...xml.matchAll(/<rehearsal>(.*?)</g)].map(([, name]) => name)).toEqual([
      'Sticking',
      'Layer 2',
    ]);
    expect([...xml.matchAll(/<measure number="(.*?)"/g)].map(([, number]) => number)).toEqual([
      '1',
      '2',
    ]);
    expect(() => writeMusicXml([])).toThrow(RangeError);
  });

  // What a checker that finds nothing would let pass.
  it.each([
    ['a bar that is not full', (xml: string) => xml.replace('<duration>1260<', '<duration>1261<')],
    [
      'a bracket that goes on',
      (xml: string) => xml.replace(/<bracket type="stop"/, '<bracket type="start"'),
    ],
    [
      'an instrument that is not there',
      (xml: string) => xml.replace('<instrument id="D-snare"', '<instrument id="D-gong"'),
    ],
    ['tempo 0', (xml: string) => xml.replace(/sound tempo="\d+"/, 'sound tempo="0"')],
    ['no way back', (xml: string) => xml.replace(/<backup>.*?<\/backup>/, '')],
  ])('%s is found by our own checks', (_, spoil) => {
    const xml = writeMusicXml([layerScore(phraseOf({ grouping: 'R L R L K' }), 1)]);
    expect(structureFaults(xml)).toEqual([]);
    expect(structureFaults(spoil(xml)).length).toBeGreaterThan(0);
  });

  it('the schema, where it is there, refuses what it should', () => {
    if (!hasSchema) return;
    const xml = writeMusicXml([layerScore(phraseOf({ grouping: 'R L R L K' }), 1)]);
    expect(schemaFaults(xml)).toEqual([]);
    expect(schemaFaults(xml.replace('<midi-unpitched>39<', '<midi-unpitched>0<')).length).toBe(1);
  });
});
