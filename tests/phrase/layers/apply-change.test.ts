import { describe, expect, it } from 'vitest';
import { expand } from '../../../src/phrase/layers/expand';
import type { ChangeFile } from '../../../src/phrase/model/phrase-file';
import { mixedNumber } from '../../../src/time/beats';
import { noteGrid, pickupGrid } from '../note-grid';
import { layeredPhrase } from '../phrase-of';

const ACCENT = { level: 'accent' } as const;
const GHOST = { level: 'ghost' } as const;

/** One cycle of a grouping after changes laid on one layer each. */
const laid = (grouping: string, ...changes: ChangeFile[]) =>
  noteGrid(layeredPhrase({ grouping }, ...changes.map((change) => [change])), changes.length + 1);

describe('where', () => {
  it.each([
    ['all main notes', {}, 'lR> L> R> L>'],
    ['a limb', { limb: 'L' }, 'lR L> R L>'],
    ['positions', { positions: [1, 4] }, 'lR> L R L>'],
    ['the nth stroke of any limb', { nth: [2] }, 'lR L R> L>'],
    ['the nth stroke of one limb', { limb: 'R', nth: [2] }, 'lR L R> L'],
    ['beats', { beats: ['1 1/4', '1 3/4'] }, 'lR L> R L>'],
    ['places that come round', { every: { partials: 3, at: [1] } }, 'lR> L R L>'],
    ['grace notes of such a place', { grace: true, every: { partials: 4, at: [1] } }, 'l>R L R L'],
    ['every key at once', { limb: 'L', positions: [1, 2] }, 'lR L> R L'],
    ['what is not', { not: { limb: 'L', nth: [2] } }, 'lR> L> R> L'],
    ['any of several', { any: [{ positions: [1] }, { limb: 'L', nth: [1] }] }, 'lR> L> R L'],
    [
      'any of several, and another key',
      { any: [{ positions: [1] }, { nth: [1] }], limb: 'L' },
      'lR L> R L',
    ],
    ['grace notes', { grace: true }, 'l>R L R L'],
    ['grace notes of a place', { grace: true, positions: [1], limb: 'L' }, 'l>R L R L'],
    ['main notes beside grace notes', { any: [{ grace: true }, { positions: [3] }] }, 'l>R L R> L'],
    [
      'grace notes of a hand that are not elsewhere',
      { grace: true, not: { limb: 'R' } },
      'l>R L R L',
    ],
    ['voices', { voice: 'snare' }, 'lR> L> R> L>'],
    ['levels', { level: 'tap' }, 'lR> L> R> L>'],
  ] as const)('%s', (_, where, expected) => {
    expect(laid('lR L R L', { where: JSON.parse(JSON.stringify(where)), set: ACCENT })).toEqual([
      `snare: ${expected}`,
    ]);
  });

  it('sees the phrase as the changes before it left it', () => {
    expect(
      laid(
        'R L R L',
        { where: { limb: 'R', nth: [1] }, set: { limb: 'L' } },
        { where: { limb: 'L', nth: [2] }, set: ACCENT },
        { where: { level: 'accent' }, set: { voice: 'cowbell' } },
      ),
    ).toEqual(['cowbell: - L> - -', 'snare: L - R L']);
  });

  it('counts silent strokes for nth, and can bring them back', () => {
    const silence: ChangeFile = { where: { limb: 'L', nth: [1] }, set: { silent: true } };
    const second: ChangeFile = { where: { limb: 'L', nth: [2] }, set: ACCENT };
    expect(laid('R L R L', silence, second)).toEqual(['snare: R - R L>']);
    expect(laid('R L R L', silence, { where: {}, set: { silent: false } })).toEqual([
      'snare: R L R L',
    ]);
  });

  it('compares beats of the bar where the cycle does not fit it, cycle by cycle', () => {
    const change = { where: { beats: ['2', '3 1/2'] }, set: ACCENT };
    const phrase = layeredPhrase({ grouping: 'R L K', subdivision: 2 }, [change]);
    expect(noteGrid(phrase, 2, 4)).toEqual([
      'snare: R L - R L - R L - R L> -',
      'bass drum: - - K> - - K> - - K - - K',
    ]);
  });

  it('counts what comes round from bar 1 beat 1, over cycles and displacement', () => {
    const seventh: ChangeFile = { where: { every: { partials: 7, at: [2, 7] } }, set: ACCENT };
    expect(noteGrid(layeredPhrase({ grouping: 'R L K' }, [seventh]), 2, 5)).toEqual([
      'snare: R L> - R L - R> L - R L - R L> -',
      'bass drum: - - K - - K - - K> - - K - - K',
    ]);
    expect(
      noteGrid(layeredPhrase({ grouping: 'R L K' }, [{ displace: 1 }], [seventh]), 3, 3),
    ).toEqual(['snare: R> L - R L - R L> -', 'bass drum: - - K - - K> - - K']);
  });

  it('reaches the pickup by limb, voice, level and beat, never by position or number', () => {
    const pickup: ChangeFile = {
      pickup: [
        { partialsBefore: 2, limb: 'R' },
        { partialsBefore: 1, limb: 'L' },
      ],
    };
    const after = (where: object) =>
      pickupGrid(layeredPhrase({ grouping: 'R L' }, [pickup], [{ where, set: ACCENT }]), 3);
    expect(after({ limb: 'L' })).toEqual(['snare: R L>']);
    expect(after({ beats: ['4 1/2', '1'] })).toEqual(['snare: R> L']);
    expect(after({ limb: 'L', not: { nth: [1] } })).toEqual(['snare: R L>']);
    expect(after({ positions: [1, 2] })).toEqual(['snare: R L']);
    expect(after({ nth: [1] })).toEqual(['snare: R L']);
    expect(after({ every: { partials: 2, at: [1, 2] } })).toEqual(['snare: R L']);
  });
});

describe('set', () => {
  it('takes the grace notes along with the voice, not with level or limb', () => {
    expect(
      laid('lR L', { where: { nth: [1], limb: 'R' }, set: { voice: 'floor tom', ...ACCENT } }),
    ).toEqual(['snare: - L', 'floor tom: lR> -']);
    expect(laid('lR -', { where: {}, set: { limb: 'L' } })).toEqual(['snare: lL -']);
  });

  it('gives, changes and takes off grace notes, played by the other hand', () => {
    const flams = { where: {}, set: { grace: 'flam' } } as const;
    const drags = { where: { limb: 'L' }, set: { grace: 'drag' } } as const;
    const none = { where: { limb: 'R' }, set: { grace: 'none' } } as const;
    expect(laid('R L', flams)).toEqual(['snare: lR rL']);
    expect(laid('R L', flams, drags)).toEqual(['snare: lR rrL']);
    expect(laid('lR rL', drags, none)).toEqual(['snare: R rrL']);
    expect(laid('R L', { where: { limb: 'L' }, set: { grace: 'flam', limb: 'R' } })).toEqual([
      'snare: R lR',
    ]);
  });

  it('keeps an earlier grace note that is what was asked for', () => {
    const phrase = layeredPhrase(
      { grouping: 'lR L' },
      [{ where: { grace: true }, set: GHOST }],
      [{ where: { limb: 'R' }, set: { grace: 'flam' } }],
    );
    expect(noteGrid(phrase, 3)).toEqual(['snare: l.R L']);
  });

  it('another limb brings its starting voice, unless the stroke had been moved', () => {
    const toFoot = { where: { limb: 'L' }, set: { limb: 'K' } } as const;
    expect(laid('R L', toFoot)).toEqual(['snare: R -', 'bass drum: - K']);
    expect(laid('R L', { where: { limb: 'L' }, set: { voice: 'cowbell' } }, toFoot)).toEqual([
      'cowbell: - K',
      'snare: R -',
    ]);
    expect(laid('R F', { where: { limb: 'F' }, set: { limb: 'L', voice: 'ride' } })).toEqual([
      'ride: - L',
      'snare: R -',
    ]);
  });

  it('silences a flam whole, and one grace note alone', () => {
    expect(laid('llR L', { where: { limb: 'R' }, set: { silent: true } })).toEqual(['snare: - L']);
    expect(laid('llR L', { where: { grace: true }, set: { silent: true } })).toEqual([
      'snare: R L',
    ]);
  });
});

describe('other changes', () => {
  it('accentEvery counts partials from bar 1 beat 1, whatever the cycle', () => {
    const phrase = layeredPhrase(
      { grouping: 'R L R L K' },
      [{ accentEvery: 4 }],
      [{ accentEvery: 7, from: 2, where: { limb: 'L' } }],
    );
    expect(noteGrid(phrase, 2, 2)).toEqual([
      'snare: R> L R L - R L R L> -',
      'bass drum: - - - - K> - - - - K',
    ]);
    expect(noteGrid(phrase, 3, 2)).toEqual([
      'snare: R> L> R L - R L R L> -',
      'bass drum: - - - - K> - - - - K',
    ]);
    expect(noteGrid(phrase, 3, 1, 4)).toEqual(['snare: R L> R L -', 'bass drum: - - - - K']);
  });

  it('adds strokes in rests and beside other limbs', () => {
    expect(
      laid('R - L', {
        add: [
          { position: 2, limb: 'F' },
          { position: 1, limb: 'K', voice: 'cowbell', level: 'ghost' },
        ],
      }),
    ).toEqual(['cowbell: K. - -', 'snare: R - L', 'hi-hat pedal: - F -']);
  });

  it('displaces cycles later or earlier, in all, and the pickup not', () => {
    const phrase = layeredPhrase(
      { grouping: 'R L L K' },
      [{ pickup: [{ partialsBefore: 1, limb: 'F' }] }],
      [{ displace: 3 }],
      [{ displace: -5 }],
    );
    const onsets = (layer: number) =>
      expand(phrase, layer, { bars: 1 })
        .map((note) => `${mixedNumber(note.onset)}${note.limb}`)
        .slice(0, 5);
    expect(onsets(2)).toEqual(['-1/4F', '0R', '1/4L', '1/2L', '3/4K']);
    expect(onsets(3)).toEqual(['-1/4F', '3/4R', '1L', '1 1/4L', '1 1/2K']);
    expect(onsets(4)).toEqual(['-1/4F', '0L', '1/4K', '1/2R', '3/4L']);
  });

  it('puts the same positions on another subdivision, the pickup too', () => {
    const phrase = layeredPhrase(
      { grouping: 'R L L K' },
      [{ pickup: [{ partialsBefore: 1, limb: 'L' }] }],
      [{ subdivision: 3 }],
    );
    expect(expand(phrase, 3, { cycles: 1 }).map((note) => note.onset.toFraction())).toEqual([
      '-1/3',
      '0',
      '1/3',
      '2/3',
      '1',
    ]);
  });
});

describe('the layers a note names', () => {
  const phrase = layeredPhrase(
    { grouping: 'R rL', subdivision: 2 },
    [{ where: { limb: 'R' }, set: ACCENT }],
    [{ where: {}, set: ACCENT }],
    [{ add: [{ position: 1, limb: 'K' }] }],
    [{ where: { limb: 'L' }, set: { voice: 'high tom' } }],
    [{ swing: '2:1' }],
    [{ pickup: [{ partialsBefore: 1, limb: 'K' }] }],
  );
  const layersAt = (layer: number) =>
    expand(phrase, layer, { cycles: 1 }).map(
      (note) =>
        `${note.graceStep > 0 ? note.limb.toLowerCase() : note.limb} ${note.layers.join(',')}`,
    );

  it('are those that made it and those that really changed it', () => {
    expect(layersAt(1)).toEqual(['R 1', 'r 1', 'L 1']);
    expect(layersAt(3)).toEqual(['R 1,2', 'r 1', 'L 1,3']);
    expect(layersAt(4)).toEqual(['R 1,2', 'K 4', 'r 1', 'L 1,3']);
    expect(layersAt(5)).toEqual(['R 1,2', 'K 4', 'r 1,5', 'L 1,3,5']);
  });

  it('swing counts for the notes it moves', () => {
    expect(layersAt(6)).toEqual(['R 1,2', 'K 4', 'r 1,5,6', 'L 1,3,5,6']);
    expect(layersAt(7)[0]).toBe('K 6,7');
  });

  it.each<[string, string | undefined, string[], string]>([
    ['a swing that is repeated changes nothing', undefined, ['2:1', '2:1'], '1,2'],
    ['nor does one that the phrase came with', '2:1', ['2:1'], '1'],
    ['another one moves them anew', undefined, ['2:1', '3:1'], '1,3'],
    ['so does one that takes it off', undefined, ['2:1', '1:1'], '1,3'],
    ['also where the phrase came with it', '2:1', ['1:1'], '1,2'],
    ['straight as they are, they stay where they are', undefined, ['1:1'], '1'],
    ['taken off and put back, the last layer moves them', undefined, ['2:1', '1:1', '2:1'], '1,4'],
  ])('of swings, those that moved it: %s', (_, swing, ratios, offBeats) => {
    const swung = layeredPhrase(
      { grouping: 'R L', subdivision: 2, ...(swing !== undefined && { swing }) },
      ...ratios.map((ratio) => [{ swing: ratio }]),
    );
    const notes = expand(swung, ratios.length + 1, { cycles: 2 });
    expect(notes.map(({ layers }) => layers.join(','))).toEqual(['1', offBeats, '1', offBeats]);
  });

  it('a layer that takes a swing back to what it was below has moved nothing', () => {
    const swung = layeredPhrase(
      { grouping: 'R L', subdivision: 2 },
      [{ swing: '2:1' }],
      [{ swing: '3:1' }, { swing: '2:1' }],
    );
    expect(expand(swung, 3, { cycles: 1 }).map(({ layers }) => layers)).toEqual([[1], [1, 2]]);
  });

  it('displacement and subdivision count for all they move', () => {
    const moved = layeredPhrase(
      { grouping: 'R L' },
      [{ pickup: [{ partialsBefore: 1, limb: 'K' }] }],
      [{ displace: 1 }],
      [{ subdivision: 3 }],
    );
    expect(expand(moved, 4, { cycles: 1 }).map((note) => note.layers)).toEqual([
      [2, 4],
      [1, 3, 4],
      [1, 3, 4],
    ]);
  });
});
