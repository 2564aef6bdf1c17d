import { describe, expect, it } from 'vitest';
import { expand, pickupNotes } from '../../../src/phrase/layers/expand';
import { layerShape } from '../../../src/phrase/layers/layer-shape';
import { isHand } from '../../../src/phrase/model/limb';
import { parsePhrase, trustPhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { realignment } from '../../../src/phrase/layers/realignment';
import type { Voice } from '../../../src/phrase/model/voice';
import { writePhrase } from '../../../src/phrase/file/write-phrase';
import { libraryPhrases } from '../library-phrases';
import { noteGrid, pickupGrid } from '../note-grid';

const read = (text: string): Phrase => {
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error(parsed.errors.map((e) => `${e.place}: ${e.message}`).join('\n'));
  return parsed.value;
};
const library = libraryPhrases().map(({ name, text }) => ({ name, text, phrase: read(text) }));
const named = (name: string): Phrase => library.find((entry) => entry.name === name)!.phrase;
const FOOT_VOICES: readonly Voice[] = ['bass drum', 'hi-hat pedal', 'hi-hat foot splash'];

describe.each(library)('$name', ({ name, text, phrase }) => {
  it('is written the way the program writes it, and named after its title', () => {
    expect(writePhrase(phrase)).toBe(text);
    expect(phrase.title.toLowerCase().replaceAll(' ', '-')).toBe(name);
  });

  it('is the same phrase when it is trusted and not checked', () => {
    expect(trustPhrase(text)).toEqual(phrase);
  });

  it('has four layers or more, each of which changes what is played', () => {
    expect(phrase.layers.length).toBeGreaterThanOrEqual(4);
    const span = { cycles: realignment(phrase, phrase.layers.length).cycles * 4 };
    const played = phrase.layers.map((_, i) =>
      expand(phrase, i + 1, span)
        .map((n) => [n.onset.toFraction(), n.graceStep, n.limb, n.voice, n.level].join(' '))
        .join('\n'),
    );
    expect(new Set(played).size).toBe(phrase.layers.length);
  });

  it('asks each hand and foot for one thing at a time, on a voice it can reach', () => {
    for (let layer = 1; layer <= phrase.layers.length; layer++) {
      const notes = expand(phrase, layer, { cycles: realignment(phrase, layer).cycles });
      const mains = new Set<string>();
      for (const note of notes) {
        expect(FOOT_VOICES.includes(note.voice)).toBe(!isHand(note.limb));
        if (note.graceStep === 0) mains.add(`${note.onset.toFraction()} ${note.limb}`);
      }
      expect(mains.size).toBe(notes.filter((note) => note.graceStep === 0).length);
      for (const note of notes.filter(({ graceStep }) => graceStep > 0))
        expect(mains).not.toContain(`${note.onset.toFraction()} ${note.limb}`);
    }
  });

  it('an open hi-hat is closed by the next thing the hi-hat does', () => {
    const layer = phrase.layers.length;
    const onHiHat = expand(phrase, layer, { cycles: 4 }).filter((n) =>
      n.voice.startsWith('hi-hat'),
    );
    onHiHat.forEach((note, i) => {
      if (note.voice === 'hi-hat open' && i + 1 < onHiHat.length)
        expect(onHiHat[i + 1]!.voice).toBe('hi-hat pedal');
    });
  });
});

describe('the library as a whole', () => {
  it('has fourteen phrases or more, and uses every kind of change and swing', () => {
    expect(library.length).toBeGreaterThanOrEqual(14);
    const kinds = library.flatMap(({ phrase }) =>
      phrase.layers.flatMap(({ changes }) => changes.map((change) => change.kind)),
    );
    expect([...new Set(kinds)].sort()).toEqual([
      'accentEvery',
      'add',
      'displace',
      'pickup',
      'set',
      'subdivision',
      'swing',
    ]);
  });

  // Meter, partials per beat and cycle as each is written; cycles and bars until they coincide worked out by hand.
  it.each([
    ['three-bollards', '4/4', 4, 3, 16, 3],
    ['quay-steps', '4/4', 4, 20, 4, 5],
    ['seven-fenders', '4/4', 4, 7, 16, 7],
    ['two-gulls', '4/4', 3, 6, 2, 1],
    ['long-mole', '4/4', 3, 12, 1, 1],
    ['five-fathoms', '4/4', 3, 15, 4, 5],
    ['rope-locker', '4/4', 4, 16, 1, 1],
    ['net-mender', '4/4', 4, 8, 2, 1],
    ['low-water', '4/4', 4, 16, 1, 1],
    ['fog-signal', '4/4', 4, 16, 1, 1],
    ['harbour-office-waltz', '3/4', 2, 6, 1, 1],
    ['crooked-pier', '7/8', 2, 14, 1, 1],
    ['buoy-bell', '6/8', 3, 12, 1, 2],
    ['lamp-room', '4/4', 3, 6, 2, 1],
    ['two-moorings', '4/4', 2, 4, 2, 1],
  ])('%s: %s, %i to the beat, cycle of %i, together after %i cycles, %i bars', (name, ...facts) => {
    const phrase = named(name);
    const { cycles, bars } = realignment(phrase, 1);
    expect([phrase.meterText, phrase.subdivision, phrase.cycle, cycles, bars]).toEqual(facts);
  });

  it('Crooked Pier counts seven eighth-note beats, Buoy Bell two dotted ones', () => {
    expect(layerShape(named('crooked-pier'), 1).barBeats.valueOf()).toBe(7);
    expect(layerShape(named('buoy-bell'), 1).barBeats.valueOf()).toBe(2);
  });

  it('Seven Fenders ends one sixteenth late, Two Moorings at twice the speed', () => {
    expect(layerShape(named('seven-fenders'), 5).startBeats.toFraction()).toBe('1/4');
    expect(layerShape(named('two-moorings'), 6).cycleBeats.valueOf()).toBe(1);
  });
});

describe('layers to read by eye', () => {
  it.each([
    [
      'three-bollards',
      4,
      4,
      [
        'crash: R> - - - - - - - - - - -',
        'snare: - L - - L - - L - - L -',
        'floor tom: - - - R> - - R> - - R> - -',
        'bass drum: - - K - - K - - K - - K',
      ],
    ],
    [
      'quay-steps',
      3,
      1,
      [
        'high tom: - - - L - - - - - - - - - L - - - - - -',
        'snare: R> L R - - R L - L - R> L R - - R L - L -',
        'floor tom: - - - - - - - R> - - - - - - - - - R> - -',
        'bass drum: - - - - K - - - - K - - - - K - - - - K',
      ],
    ],
    [
      'seven-fenders',
      4,
      1,
      ['high tom: - - - R> - - -', 'snare: R> L. - - L. L. -', 'bass drum: - - K - - - K'],
    ],
    [
      'two-gulls',
      4,
      2,
      [
        'snare: - L. - L. - - R. L. - L. R. -',
        'floor tom: R> - - - R> - - - - - - -',
        'bass drum: - - K - - K - - K> - - K',
      ],
    ],
    [
      'long-mole',
      4,
      1,
      [
        'high tom: - - - - R> - - - - - - -',
        'mid tom: - - - - - - - - R> - - -',
        'snare: R> L. L. - - L. L. - - L. - L',
        'floor tom: - - - - - - - - - - R -',
        'bass drum: - - - K - - - K - - - -',
      ],
    ],
    [
      'five-fathoms',
      6,
      1,
      [
        'ride bell: R> - - - - - - R> - - - - - - -',
        'high tom: - - - - - - - - - L - - - - -',
        'snare: - L. L. - - L. - - L. - - - L. R. -',
        'floor tom: - - - - R> - - - - - - R> - - -',
        'bass drum: - - - K - - K - - - K - - - K',
        'hi-hat pedal: F - - F - - F - - F - - F - -',
      ],
    ],
    [
      'rope-locker',
      6,
      1,
      [
        'high tom: - - - L> - - - - - - - - - - - -',
        'snare: R> L. R. - R. L. - L. R. L. - L. - L. R. L.',
        'floor tom: - - - - - - R> - - - R> - R> - - -',
        'bass drum: K - - - - - K - - - K - - - - -',
        'hi-hat pedal: - - - - F - - - - - - - F - - -',
      ],
    ],
    [
      'net-mender',
      5,
      1,
      [
        'hi-hat closed: R - R R - R - -',
        'snare: - L. - - L> - L. L.',
        'bass drum: K - - K - - - -',
      ],
    ],
    [
      'net-mender',
      6,
      2,
      [
        'ride bell: R - - - - - - - - - - - - - - -',
        'ride: - - R R - R - - R - R R - R - -',
        'snare: - L. - - L> - L. L. - L. - - L> - L. L.',
        'bass drum: K - - K - - - - K - - K - - - -',
      ],
    ],
    [
      'low-water',
      5,
      1,
      [
        'hi-hat closed: R> - R - R> - R - R> - R - R> - R -',
        'snare: - - - L. L> - - - - L. - - L> - - L.',
        'bass drum: K - - - - - - K - - K - - - - -',
      ],
    ],
    [
      'fog-signal',
      5,
      1,
      [
        'hi-hat open: - - - - - - R - - - - - - - R -',
        'hi-hat closed: - - R - R - - - - - R - R - - -',
        'snare: - - - - L> - - L. - L. - - L> - - -',
        'bass drum: K - - - - - - - K - - K - - - -',
        'hi-hat pedal: F - - - - - - - F - - - - - - -',
      ],
    ],
    [
      'harbour-office-waltz',
      4,
      1,
      [
        'ride: R> - R R> R -',
        'snare: - L. - - - L>',
        'bass drum: K - - - - -',
        'hi-hat pedal: - - F - - -',
      ],
    ],
    [
      'crooked-pier',
      4,
      1,
      [
        'hi-hat closed: R> - - - R> - - - - - - - - -',
        'mid tom: - - - - - - - - R> - - - - -',
        'snare: - L. - L. - L. - L. - L. - - L. -',
        'floor tom: - - - - - - - - - - - R> - -',
        'bass drum: - - K - - - K - - - K - - K',
      ],
    ],
    [
      'buoy-bell',
      6,
      1,
      [
        'ride bell: R> - R - R R - R> - R - R',
        'high tom: - - - - - - - - - - L -',
        'mid tom: - - - - - - - - L - - -',
        'side stick: - - - - - - L> - - - - -',
        'bass drum: K - - - - K - - - - - -',
        'hi-hat pedal: F - - F - - F - - F - -',
      ],
    ],
    [
      'lamp-room',
      6,
      1,
      ['high tom: - - - r.L> - -', 'snare: - L. R. - R. L.', 'floor tom: l.R> - - - - -'],
    ],
    [
      'two-moorings',
      5,
      1,
      [
        'high tom: - L> - -',
        'snare: l.l.R - r.r.L -',
        'floor tom: - - - R>',
        'bass drum: K - - -',
        'hi-hat pedal: - - F -',
      ],
    ],
  ] as const)('%s, layer %i, %i cycle(s)', (name, layer, cycles, rows) => {
    expect(noteGrid(named(name), layer, cycles)).toEqual(rows);
  });

  it.each([
    ['quay-steps', 5, ['snare: R. L.']],
    ['long-mole', 5, ['snare: R L. L.']],
    ['crooked-pier', 5, ['high tom: R> - -', 'snare: - L -', 'bass drum: - - K']],
  ])('the pickup of %s', (name, layer, rows) => {
    expect(pickupGrid(named(name), layer)).toEqual(rows);
    expect(pickupNotes(named(name), layer - 2)).toEqual([]);
  });
});
