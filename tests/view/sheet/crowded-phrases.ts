import { VOICES } from '../../../src/phrase/model/voice';

const HANDS = VOICES.filter(
  (voice) => !['bass drum', 'hi-hat pedal', 'hi-hat foot splash'].includes(voice),
);

const heads = {
  title: 'Every head',
  meter: '4/4',
  tempoBpm: 96,
  subdivision: 4,
  grouping: `${HANDS.map((_, i) => (i % 2 === 0 ? 'R' : 'L')).join(' ')} K F F K`,
  cycle: HANDS.length + 4,
  layers: [
    { name: 'Sticking' },
    {
      name: 'Voices',
      changes: [
        ...HANDS.map((voice, i) => ({ where: { positions: [i + 1] }, set: { voice } })),
        { where: { positions: [HANDS.length + 2] }, set: { voice: 'hi-hat foot splash' } },
        { where: { positions: [3, 7, HANDS.length, HANDS.length + 1] }, set: { level: 'accent' } },
        { where: { positions: [4, HANDS.length - 1, HANDS.length + 4] }, set: { level: 'ghost' } },
      ],
    },
  ],
};

const phrase = (
  title: string,
  meter: string,
  subdivision: number,
  grouping: string,
  cycle: number,
) => ({
  title,
  meter,
  tempoBpm: 80,
  subdivision,
  grouping,
  cycle,
  layers: [
    { name: 'Sticking' },
    {
      name: 'Levels',
      changes: [
        { where: { limb: 'R' }, set: { level: 'ghost' } },
        { where: { limb: 'L' }, set: { level: 'accent' } },
        { where: { limb: 'R', nth: [1] }, set: { voice: 'hi-hat open' } },
        { where: { limb: 'L', nth: [1] }, set: { voice: 'hi-hat closed' } },
      ],
    },
  ],
});

/** Phrase files that leave little room: all heads, grace notes everywhere, long tuplets, unlike meters. */
export const CROWDED: readonly string[] = [
  heads,
  phrase('Flams and drags', '4/4', 4, 'lR L rrL R+K lR+K F - llR L rL', 10),
  phrase('Sextuplets with drags', '4/4', 6, 'lR L rrL R+K - llR L', 14),
  phrase('Septuplets in twelve', '12/8', 7, 'R+K L R - K L F+R', 11),
  phrase('Duplets in twelve', '12/8', 2, 'R+K L R - K L F+R', 7),
  phrase('Twelfths', '4/4', 12, 'R+K L R - K L F+R llR', 9),
  phrase('Quintuplets in seven', '7/8', 5, 'K R - L F rL', 13),
  phrase('Quarters', '3/4', 1, 'R L K', 4),
  phrase('Sixteenth meter', '9/16', 3, 'R L L K', 4),
  phrase('Triplets', '5/4', 3, 'R L K R - L', 8),
].map((file) => JSON.stringify(file));
