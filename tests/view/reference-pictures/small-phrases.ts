import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';

function phraseOf(file: object): Phrase {
  const parsed = parsePhrase(JSON.stringify({ meter: '4/4', tempoBpm: 80, ...file }));
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  return parsed.value;
}

const ON_HANDS = [
  ...['splash', 'china', 'crash', 'hi-hat open', 'hi-hat closed', 'ride bell', 'ride', 'cowbell'],
  ...['side stick', 'high tom', 'mid tom', 'snare', 'floor tom'],
];

/** Every voice of a drum set, one a sixteenth, with an accent and a ghost. */
export const HEADS = phraseOf({
  title: 'Heads',
  subdivision: 4,
  grouping: `${ON_HANDS.map((_, i) => (i % 2 === 0 ? 'R' : 'L')).join(' ')} K F F`,
  layers: [
    { name: 'Sticking' },
    {
      name: 'Voices',
      changes: [
        ...ON_HANDS.map((voice, i) => ({ where: { positions: [i + 1] }, set: { voice } })),
        { where: { positions: [16] }, set: { voice: 'hi-hat foot splash' } },
        { where: { positions: [3, 10] }, set: { level: 'accent' } },
        { where: { positions: [12] }, set: { level: 'ghost' } },
      ],
    },
  ],
});

/** Flams and drags of either hand, with a foot under them. */
export const FLAMS = phraseOf({
  title: 'Flams',
  subdivision: 4,
  grouping: 'lR L rL R+K llR - rrL K',
  layers: [
    { name: 'Sticking' },
    {
      name: 'Levels',
      changes: [
        { where: { positions: [1, 5] }, set: { level: 'accent' } },
        { where: { positions: [2, 4] }, set: { level: 'ghost' } },
      ],
    },
  ],
});

/** Triplets with rests, hands over a foot. */
export const TUPLETS = phraseOf({
  title: 'Tuplets',
  subdivision: 3,
  grouping: 'R L K R - L R+K - - R L R',
  layers: [{ name: 'Sticking' }],
});

/** Five sixteenths in turn over the bar line. */
export const BRACKETS = phraseOf({
  title: 'Brackets',
  subdivision: 4,
  grouping: 'R L L R K',
  layers: [{ name: 'Sticking' }],
});
