import type { CountWord } from '../sound-event';
import { speak, type Phone, type PhoneSpan } from './speech';

/**
 * The words of a count, sound by sound. Formants of the vowels: G. E. Peterson & H. L. Barney, JASA 24 (1952), 175-184,
 * table II, men; of the consonants: Klatt 1980, table II [M]. Lengths are chosen: words are short enough for a quick count.
 */
const vowel = (...formants: Phone['formants']): Phone => ({ formants, voice: 1, breath: 0 });
const glide = (...formants: Phone['formants']): Phone => ({ formants, voice: 0.7, breath: 0 });
const hissing = (
  formants: Phone['formants'],
  hertz: number,
  width: number,
  level: number,
  voice = 0,
): Phone => ({ formants, voice, breath: 0, hiss: { hertz, width, level } });
const closed = (...formants: Phone['formants']): Phone => ({ formants, voice: 0, breath: 0 });
const breathy = (...formants: Phone['formants']): Phone => ({ formants, voice: 0, breath: 1 });

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
  w: glide(290, 610, 2150),
  r: glide(310, 1060, 1380),
  l: glide(310, 1050, 2880),
  n: { formants: [250, 1700, 2600], voice: 0.6, breath: 0 },
  s: hissing([320, 1390, 2530], 6500, 2000, 0.45),
  f: hissing([340, 1100, 2080], 7500, 6000, 0.25),
  th: hissing([320, 1290, 2540], 7000, 5000, 0.25),
  v: hissing([220, 1100, 2080], 7500, 6000, 0.1, 0.4),
  t: hissing([400, 1600, 2600], 4500, 2500, 0.8),
  k: hissing([300, 1990, 2850], 2200, 800, 0.8),
  p: hissing([400, 1100, 2150], 1000, 1500, 0.4),
  hush: closed(400, 1600, 2600),
  breath: breathy(400, 1600, 2600),
} as const satisfies Record<string, Phone>;

/**
 * Sounds with their lengths in milliseconds; the beat falls on the start of the one with the star. That is where the vowel
 * begins, or so much sooner that words are felt alike on the beat: a glide before the vowel is part of its rise.
 */
const SPELLINGS: Readonly<Record<CountWord, string>> = {
  '1': 'w42 *w13 V100 n85',
  '2': 't20 breath35 *uf38 u120',
  '3': 'th70 r15 *r30 i140',
  '4': 'f75 *O110 er80',
  '5': 'f65 a12 *a68 I70 v60',
  '6': 's85 *I75 hush35 k15 s90',
  '7': 's85 *E80 v40 uh40 n70',
  '8': '*eI70 i70 hush45 t25',
  '9': 'n70 *a75 I75 n75',
  '10': 't15 breath30 *E105 n95',
  '11': 'I50 l50 *E75 v40 uh35 n70',
  '12': 't12 breath25 w20 *w20 E80 l70 v60',
  '&': '*ae90 n90',
  e: '*i120',
  a: '*V110',
  trip: 't12 breath20 r10 *r25 I75 hush35 p15',
  let: 'l30 *l20 E80 hush40 t25',
};

/** A word as samples between -1 and 1, and where in it the beat falls. */
export interface WordSound {
  readonly samples: Float32Array;
  /** From the first sample on, seconds. */
  readonly beatSeconds: number;
}

export function countWordSound(word: CountWord, sampleRate: number): WordSound {
  const spans: PhoneSpan[] = [];
  let seconds = 0;
  let beatSeconds = 0;
  for (const [, star, phone, ms] of SPELLINGS[word].matchAll(/(\*?)([a-zA-Z]+)(\d+)/g)) {
    if (star !== '') beatSeconds = seconds;
    spans.push({ phone: PHONES[phone as keyof typeof PHONES], seconds: Number(ms) / 1000 });
    seconds += Number(ms) / 1000;
  }
  return { samples: speak(spans, sampleRate), beatSeconds };
}
