import { describe, expect, it } from 'vitest';
import { readMusicXml, type MusicXmlExcerpt } from '../../../src/notation/musicxml/read-musicxml';
import type { PatternNote } from '../../../src/phrase/decompose/target-pattern';
import { chance } from '../../../src/time/chance';
import { foreignInstruments, foreignNote, foreignScore, type ForeignNote } from './foreign-score';

const read = (xml: string, excerpt?: MusicXmlExcerpt) => {
  const result = readMusicXml(xml, excerpt);
  if (!result.ok) throw new Error(result.errors[0]!.message);
  return result.value;
};
const refusal = (xml: string, excerpt?: MusicXmlExcerpt) => {
  const result = readMusicXml(xml, excerpt);
  if (result.ok) throw new Error('was read');
  return result.errors[0]!;
};
const bar = (...notes: readonly ForeignNote[]) => notes.map(foreignNote).join('');
const words = ({ partial, limb, voice, level, graces }: PatternNote) =>
  `${partial} ${graces.join('').toLowerCase()}${limb} ${voice}${level === 'tap' ? '' : ` ${level}`}`;
const notesOf = (xml: string) => read(xml).pattern.notes.map(words);
const sentences = (xml: string) => read(xml).unread.map(({ sentence }) => sentence);
const GUESSED =
  'The file does not say which hand strikes; the sticking is a guess. Correct it in the phrase.';

const SNARE = { place: 'C5', duration: 4 } as const;
const HAT = { place: 'G5', head: 'x', duration: 4 } as const;
const KICK = { place: 'F4', duration: 4, voice: 2 } as const;
const tempo = '<sound tempo="100"/>';

describe('what is struck', () => {
  // Weinberg, "Guidelines for Drumset Notation", Percussive Notes 32(3), 1994.
  it('is told by place and head where there are no instruments', () => {
    const drums = [
      HAT,
      SNARE,
      { ...SNARE, head: 'x' },
      { place: 'F5', head: 'x', duration: 4 },
      { place: 'A5', head: 'x', duration: 4 },
      { place: 'F4', duration: 4 },
      { place: 'A4', duration: 4 },
      { place: 'D4', head: 'x', duration: 4 },
    ];
    const xml = foreignScore([tempo + bar(...drums.slice(0, 4)), bar(...drums.slice(4))]);
    expect(read(xml).pattern.notes.map(({ voice }) => voice)).toEqual([
      'hi-hat closed',
      'snare',
      'side stick',
      'ride',
      'crash',
      'bass drum',
      'floor tom',
      'hi-hat pedal',
    ]);
  });

  it('is told by the instrument first: open hats by it, then by their sign', () => {
    const open = '<technical><open/></technical>';
    const twoHats = foreignInstruments(['A', 'Closed Hi-Hat', 43], ['B', 'Open Hi-Hat', 47]);
    const both = bar(
      { ...HAT, instrument: 'B' },
      { ...HAT, instrument: 'A', notations: open },
      { ...HAT, instrument: 'A' },
      { ...HAT, instrument: 'A' },
    );
    expect(notesOf(foreignScore([tempo + both], { instruments: twoHats }))).toEqual([
      '0 R hi-hat open',
      '1 R hi-hat closed',
      '2 R hi-hat closed',
      '3 R hi-hat closed',
    ]);
    const oneHat = foreignInstruments(['A', 'Hi-Hat', 43]);
    const one = bar({ ...HAT, instrument: 'A', notations: open }, { ...HAT, instrument: 'A' });
    expect(
      notesOf(foreignScore([tempo + one + bar({ duration: 8 })], { instruments: oneHat })),
    ).toEqual(['0 R hi-hat open', '1 R hi-hat closed']);
  });

  // MusicXML 4.0: midi-unpitched is 1 to 128, the key plus one. Readers and writers were seen to count from 0.
  it.each<[number, string, string]>([
    [39, 'x', 'snare'],
    [0, 'Kick', 'bass drum'],
    [0, 'no word for it', 'hi-hat closed'],
    [129, 'Ride cymbal', 'ride'],
  ])('midi-unpitched %i named "%s" is a %s', (key, name, voice) => {
    const instruments = foreignInstruments(['A', name, key], ['B', 'Snare', 39]);
    const xml = foreignScore([tempo + bar({ ...HAT, instrument: 'A' }, { duration: 12 })], {
      instruments,
    });
    expect(read(xml).pattern.notes[0]!.voice).toBe(voice);
  });

  it('is left out and told where nothing says it', () => {
    const xml = foreignScore([tempo + bar(SNARE, { place: 'C9', head: 'slash', duration: 12 })]);
    expect(notesOf(xml)).toEqual(['0 R snare']);
    expect(sentences(xml)).toEqual([
      GUESSED,
      'Bar 1: there is a note of which neither instrument nor place says what is struck.',
    ]);
  });
});

describe('how loud', () => {
  it('accents and ghosts by their signs', () => {
    const ghost = '<notehead parentheses="yes">normal</notehead>';
    const xml = foreignScore([
      tempo +
        bar({ ...SNARE, notations: '<articulations><accent/></articulations>' }, SNARE, SNARE) +
        foreignNote(SNARE).replace('</note>', `${ghost}</note>`),
    ]);
    expect(read(xml).pattern.notes.map(({ level }) => level)).toEqual([
      'accent',
      'tap',
      'tap',
      'ghost',
    ]);
  });

  it('ghosts by the dynamics of a note, up to velocity 50, where others are louder', () => {
    const at = (percent: string) => ({ ...SNARE, attributes: ` dynamics="${percent}"` });
    const mixed = foreignScore([tempo + bar(at('100'), at('55.55'), at('55.6'), at('30'))]);
    expect(read(mixed).pattern.notes.map(({ level }) => level)).toEqual([
      'tap',
      'ghost',
      'tap',
      'ghost',
    ]);
    const soft = foreignScore([tempo + bar(at('30'), at('40'), at('30'), at('30'))]);
    expect(read(soft).pattern.notes.every(({ level }) => level === 'tap')).toBe(true);
  });
});

describe('who strikes', () => {
  const fingering = (text: string) => `<technical><fingering>${text}</fingering></technical>`;

  it('by text under the note, fingerings and words of hands only', () => {
    const say = '<direction><direction-type><words>L</words></direction-type></direction>';
    const xml = foreignScore([
      tempo +
        bar({ ...SNARE, lyric: 'L' }, { ...SNARE, notations: fingering('L') }) +
        say +
        bar(SNARE, { ...SNARE, lyric: '4', notations: fingering('1') }),
    ]);
    const { pattern, stickingShare } = read(xml);
    expect(pattern.notes.map(({ limb }) => limb).slice(0, 3)).toEqual(['L', 'L', 'L']);
    expect(stickingShare).toBe(0.75);
    expect(sentences(xml)).toEqual([
      'The file says of some strokes only which hand strikes; the others are a guess. Correct them in the phrase.',
    ]);
  });

  it('likely hands where nothing is said, feet by their voices', () => {
    const xml = foreignScore([
      `${tempo}${bar(...Array.from({ length: 8 }, () => ({ ...SNARE, duration: 2 })))}<backup><duration>16</duration></backup>${bar(KICK, { duration: 12, voice: 2 })}`,
    ]);
    const { pattern, stickingShare } = read(xml);
    expect(pattern.notes.map(({ limb }) => limb).join('')).toBe('RKLRLRLRL');
    expect(stickingShare).toBe(0);
  });

  it('a third hand is left out and told', () => {
    const xml = foreignScore([
      tempo +
        bar(
          { ...SNARE, duration: 16 },
          { ...HAT, at: 'chord' },
          { place: 'A5', head: 'x', at: 'chord' },
        ),
    ]);
    expect(read(xml).pattern.notes).toHaveLength(2);
    expect(sentences(xml)).toEqual([
      GUESSED,
      'Bar 1: 1 note left out, since no limb is left to strike them.',
    ]);
  });
});

describe('when', () => {
  it('ties join, and what is tied over is not struck again', () => {
    const xml = foreignScore([
      tempo +
        bar({ ...SNARE, duration: 3, more: '<tie type="start"/>' }) +
        bar({ ...SNARE, duration: 1, more: '<tie type="stop"/>' }, SNARE, { duration: 8 }),
    ]);
    expect(notesOf(xml)).toEqual(['0 R snare', '1 R snare']);
  });

  it('grace notes are flams and drags, by the hand that does not strike', () => {
    const grace: ForeignNote = { ...SNARE, at: 'grace' };
    const xml = foreignScore([
      tempo +
        bar(
          grace,
          { ...SNARE, lyric: 'R' },
          grace,
          grace,
          { ...SNARE, lyric: 'L' },
          { duration: 8 },
        ),
    ]);
    expect(notesOf(xml)).toEqual(['0 lR snare', '1 rrL snare']);
  });

  it('a short first bar is a pickup', () => {
    const xml = foreignScore([tempo + bar({ ...SNARE, lyric: 'L' }), bar(SNARE, { duration: 12 })]);
    expect(read(xml).pattern).toMatchObject({
      cyclePartials: 4,
      pickup: [{ partialsBefore: 1, limb: 'L' }],
    });
  });

  it('the subdivision is the coarsest that holds every onset', () => {
    const sixteenth = { ...SNARE, duration: 1 };
    expect(read(foreignScore([tempo + bar(sixteenth, { duration: 15 })])).pattern.subdivision).toBe(
      1,
    );
    expect(
      read(foreignScore([tempo + bar({ duration: 1 }, sixteenth, { duration: 14 })])).pattern
        .subdivision,
    ).toBe(4);
  });

  it('what falls between the partials is told by bar', () => {
    // A sixteenth and a fifth of a beat have no common partial up to twelve.
    const fifth = bar({ duration: 0.8 }, { ...SNARE, duration: 15.2 });
    const xml = foreignScore([
      tempo + bar({ duration: 1 }, { ...SNARE, duration: 1 }, { ...SNARE, duration: 14 }),
      fifth,
    ]);
    expect(sentences(xml)).toEqual([GUESSED, 'Bar 2: 1 note left out, between the partials.']);
  });

  it.each([
    ['<sound tempo="150"/>', 100],
    [
      '<direction><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>80</per-minute></metronome></direction-type></direction>',
      80,
    ],
  ])('tempo is in beats of the meter: %s', (head, bpm) => {
    const xml = foreignScore([head + bar({ ...SNARE, duration: 12 })], { beats: '6', unit: '8' });
    expect(read(xml).pattern.tempoBpm).toBe(bpm);
  });

  it.each([
    ['2', '2', '4/4'],
    ['3+2', '8', '5/8'],
  ])('%s over %s is read as %s', (beats, unit, meter) => {
    const xml = foreignScore([tempo + bar(SNARE, { duration: unit === '2' ? 12 : 6 })], {
      beats,
      unit,
    });
    expect(read(xml).pattern.meter).toBe(meter);
  });
});

describe('what a phrase has no word for', () => {
  const full = bar(SNARE, SNARE, SNARE, SNARE);
  it.each([
    [
      'another meter',
      [
        full,
        '<attributes><time><beats>3</beats><beat-type>4</beat-type></time></attributes>' + full,
      ],
      'Bar 2: the meter changes to 3/4; from here on nothing is read.',
    ],
    [
      'another tempo',
      [full, `<sound tempo="120"/>${full}`],
      'Bar 2: the tempo changes; a phrase has one, and 100 beats a minute stay.',
    ],
    [
      'a repeat inside',
      [`${full}<barline><repeat direction="backward"/></barline>`, full],
      'Bar 1: a repeat ends here; its bars are read once.',
    ],
    [
      'an ending',
      [full, `${full}<barline><ending number="1" type="start"/></barline>`],
      'Bar 2: there is an ending of a repeat, read as it stands.',
    ],
    [
      'a roll',
      [
        full,
        bar(
          { ...SNARE, notations: '<ornaments><tremolo>3</tremolo></ornaments>' },
          { duration: 12 },
        ),
      ],
      'Bar 2: there is a roll, of which one stroke is read.',
    ],
    ['a short bar', [full, bar(SNARE), full], 'Bar 2: the bar is not as long as 4/4 says.'],
    [
      'a repeat sign',
      [
        full,
        `<attributes><measure-style><measure-repeat type="start">1</measure-repeat></measure-style></attributes>${full}`,
      ],
      'Bar 2: there is a sign that repeats bars or beats.',
    ],
  ])('%s is told by bar', (_, bars, sentence) => {
    expect(sentences(foreignScore([tempo + bars[0]!, ...bars.slice(1)]))).toEqual([
      GUESSED,
      sentence,
    ]);
  });

  it('what is in a pickup is told of it', () => {
    const roll = { ...SNARE, notations: '<ornaments><tremolo>3</tremolo></ornaments>' };
    expect(sentences(foreignScore([tempo + bar(roll), full]))).toEqual([
      GUESSED,
      'Pickup: there is a roll, of which one stroke is read.',
    ]);
  });

  it('no tempo is told', () => {
    expect(sentences(foreignScore([full]))).toEqual([
      'No tempo is given; 120 beats a minute are taken.',
      GUESSED,
    ]);
  });
});

describe('bars asked for', () => {
  const bars = [
    bar(SNARE, SNARE, HAT, HAT),
    bar(HAT, { duration: 12 }),
    bar(SNARE, { duration: 12 }),
  ];
  const xml = foreignScore([tempo + bars[0]!, ...bars.slice(1)]);

  it('are read alone', () => {
    expect(read(xml, { fromBar: 2, bars: 1 }).pattern.notes.map(words)).toEqual([
      '0 R hi-hat closed',
    ]);
  });

  it.each([
    [0, 1],
    [1, 4],
    [4, 1],
    [1.5, 1],
    [1, 0],
  ])('%s, so many %s, are refused where the score has no such bars', (fromBar, count) => {
    expect(refusal(xml, { fromBar, bars: count }).code).toBe('BARS');
  });

  it('are asked for where all are too long for a phrase', () => {
    const drums = [SNARE, HAT, { place: 'A4', duration: 4 }];
    const { next } = chance(7);
    const many = Array.from({ length: 200 }, () =>
      bar(...Array.from({ length: 8 }, () => ({ ...drums[next() % 3]!, duration: 2 }))),
    );
    const { message, code } = refusal(foreignScore([tempo + many[0]!, ...many.slice(1)]));
    expect(code).toMatch(/^PATTERN/);
    expect(message).toBe(
      'Bars 1 to 200 are too long for one phrase, which has 64 of them at most; ask for fewer bars.',
    );
    expect(
      read(foreignScore([tempo + many[0]!, ...many.slice(1)]), { fromBar: 9, bars: 4 }).pattern
        .notes.length,
    ).toBeGreaterThan(8);
  });
});

describe('what is refused, with its place', () => {
  const bomb = `<?xml version="1.0"?><!DOCTYPE score-partwise [<!ENTITY a "${'x'.repeat(100)}">${Array.from({ length: 9 }, (_, i) => `<!ENTITY a${i} "${`&a${i ? i - 1 : ''};`.repeat(10)}">`).join('')}]><score-partwise>&a8;</score-partwise>`;
  it.each([
    ['bar-wise scores', '<score-timewise/>', 'TIMEWISE', ''],
    ['other XML', '<svg/>', 'NOT_MUSICXML', ''],
    [
      'a score without drums',
      '<score-partwise><part id="P1"><measure/></part></score-partwise>',
      'NO_DRUMS',
      '',
    ],
    ['nothing', '', 'NOT_XML', 'line 1, column 0'],
    ['no XML', 'MThd', 'NOT_XML', 'line 1, column 4'],
    ['an open element', '<score-partwise>\n<part>', 'NOT_XML', 'line 2, column 6'],
    ['entities of its own', bomb, 'NOT_XML', ''],
    ['deep nesting', '<a>'.repeat(100_000), 'NOT_XML', 'line 1, column 123'],
    [
      'a file of another site',
      '<!DOCTYPE x [<!ENTITY f SYSTEM "file:///etc/passwd">]><score-partwise>&f;</score-partwise>',
      'NOT_XML',
      '',
    ],
    ['a meter of none', foreignScore([tempo], { beats: '4', unit: '3' }), 'METER', ''],
    ['silence', foreignScore([tempo + bar({ duration: 16 })]), 'PATTERN_EMPTY', ''],
  ])('%s', (_, xml, code, place) => {
    const error = refusal(xml);
    expect(error.code).toBe(code);
    if (place !== '') expect(error.place).toBe(place);
    expect(error.message).toMatch(/^[A-Z].*; .*\.$/);
  });

  it('a script in a title is text', () => {
    const head = '<work><work-title>&lt;script&gt;alert(1)&lt;/script&gt;</work-title></work>';
    expect(read(foreignScore([tempo + bar(SNARE, { duration: 12 })], { head })).phrase.title).toBe(
      '<script>alert(1)</script>',
    );
  });
});
