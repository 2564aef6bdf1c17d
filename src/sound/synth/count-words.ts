import type { CountWord } from '../sound-event';
import { speak, type Phone, type PhoneSpan } from './speech';

type Three = Phone['formants'];

const VOWEL_WIDTHS: Three = [60, 90, 150];
const vowel = (...formants: Three): Phone => ({
  formants,
  widths: VOWEL_WIDTHS,
  voice: 1,
  breath: 0,
});
const glide = (formants: Three, widths: Three): Phone => ({
  formants,
  widths,
  voice: 0.7,
  breath: 0,
});
const hissing = (
  formants: Three,
  widths: Three,
  hiss: NonNullable<Phone['hiss']>,
  voice = 0,
): Phone => ({ formants, widths, voice, breath: 0, hiss });

/** The tip of the tongue at the ridge behind the teeth: formants and their widths. */
const AT_RIDGE: readonly [Three, Three] = [
  [400, 1600, 2600],
  [300, 120, 250],
];
/**
 * The words of a count, sound by sound, each in full and short. Formants of the vowels: G. E. Peterson & H. L. Barney, JASA 24
 * (1952), 175-184, table II, men; of the consonants, with their widths: Klatt 1980, table III. Lengths are chosen: short
 * words fit a quick count (`WORD_US`), and of long ones only the stressed syllable is said then, as teachers do ("sev",
 * common practice, no source).
 */
const PHONES = {
  i: vowel(270, 2290, 3010),
  I: vowel(390, 1990, 2550),
  E: vowel(530, 1840, 2480),
  ae: vowel(660, 1720, 2410),
  a: vowel(730, 1090, 2440),
  O: vowel(570, 840, 2410),
  u: vowel(300, 870, 2240),
  /** After t, where the tongue still is. */
  uf: vowel(280, 1500, 2250),
  V: vowel(640, 1190, 2390),
  uh: vowel(500, 1500, 2500),
  eI: vowel(480, 1990, 2600),
  er: vowel(490, 1350, 1690),
  w: glide([290, 610, 2150], [50, 80, 60]),
  r: glide([310, 1060, 1380], [70, 100, 120]),
  l: glide([310, 1050, 2880], [50, 100, 280]),
  /**
   * Between the vowels of a count the tip of the tongue shows in the second formant, not in Klatt's 1340 Hz: 1700 to 1800 Hz
   * (Delattre, Liberman & Cooper, JASA 27 (1955), 769-773 [M]). With 1340 a recogniser takes "nine" for "five". Its
   * first formant and the zero are chosen by what it hears.
   */
  n: {
    formants: [300, 1700, 2600],
    widths: [40, 200, 250],
    nasalZero: 600,
    voice: 1,
    breath: 0,
  },
  s: hissing([320, 1390, 2530], [200, 80, 200], { hertz: 6500, width: 2000, level: 0.45 }),
  f: hissing([340, 1100, 2080], [200, 120, 150], { hertz: 7500, width: 6000, level: 0.25 }),
  th: hissing([320, 1290, 2540], [200, 90, 200], { hertz: 7000, width: 5000, level: 0.25 }),
  v: hissing([220, 1100, 2080], [60, 90, 120], { hertz: 7500, width: 6000, level: 0.1 }, 0.4),
  t: hissing(...AT_RIDGE, { hertz: 4500, width: 2500, level: 0.8 }),
  k: hissing([300, 1990, 2850], [250, 160, 330], { hertz: 2200, width: 800, level: 0.8 }),
  p: hissing([400, 1100, 2150], [300, 150, 220], { hertz: 1000, width: 1500, level: 0.4 }),
  hush: { formants: AT_RIDGE[0], widths: AT_RIDGE[1], voice: 0, breath: 0 },
  breath: { formants: AT_RIDGE[0], widths: AT_RIDGE[1], voice: 0, breath: 1 },
} as const satisfies Record<string, Phone>;

/**
 * Sounds with their lengths in milliseconds, in full and short; the beat falls on the start of the one with the star. That is
 * where the vowel begins, or so much sooner that words are felt alike on the beat: a glide before the vowel is part of its rise.
 */
const SPELLINGS: Readonly<Record<CountWord, readonly [full: string, short: string]>> = {
  '1': ['w50 *w13 V85 n90', 'w30 *w10 V45 n40'],
  '2': ['t20 breath35 *uf38 u120', 't15 breath20 *uf25 u60'],
  '3': ['th70 r15 *r30 i140', 'th35 r10 *r15 i70'],
  '4': ['f70 O15 *O95 er80', 'f35 *O60 er35'],
  '5': ['f65 a12 *a68 I70 v60', 'f32 a12 *a38 I35 v22'],
  '6': ['s85 *I70 hush35 k15 s85', 's40 *I38 hush22 s35'],
  '7': ['s85 *E60 v50 uh35 n65', 's45 *E50 v40'],
  '8': ['*eI65 i65 hush45 t25', '*eI40 i20 hush20 t15'],
  '9': ['n70 *a75 I70 n70', 'n45 *a35 I30 n30'],
  '10': ['t25 breath40 *E95 n100', 't12 breath18 *E45 n50'],
  '11': ['I40 l45 *E60 v50 uh35 n65', 'l45 *E50 v40'],
  '12': ['t12 breath25 w20 *w20 E75 l65 v50', 't12 breath15 w18 *w10 E45 l40'],
  '&': ['*ae90 n90', '*ae50 n45'],
  e: ['*i120', '*i85'],
  a: ['*V110', '*V80'],
  trip: ['t28 breath37 r15 *r15 I52 hush50 p25', 't20 breath25 *r12 I33 hush28 p22'],
  let: ['l30 *l20 E80 hush40 t25', 'l25 *l10 E45 hush20 t15'],
};

/** A word as samples between -1 and 1, and where in it the beat falls. */
export interface WordSound {
  readonly samples: Float32Array;
  /** From the first sample on, seconds. */
  readonly beatSeconds: number;
}

export function countWordSound(word: CountWord, isShort: boolean, sampleRate: number): WordSound {
  const spans: PhoneSpan[] = [];
  let seconds = 0;
  let beatSeconds = 0;
  const [full, short] = SPELLINGS[word];
  for (const [, star, phone, ms] of (isShort ? short : full).matchAll(/(\*?)([a-zA-Z]+)(\d+)/g)) {
    if (star !== '') beatSeconds = seconds;
    spans.push({ phone: PHONES[phone as keyof typeof PHONES], seconds: Number(ms) / 1000 });
    seconds += Number(ms) / 1000;
  }
  return { samples: speak(spans, sampleRate), beatSeconds };
}
