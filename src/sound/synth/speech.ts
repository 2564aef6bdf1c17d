import { mix } from './mix';
import { noise } from './noise';

/**
 * A small voice: pulses and noise through formants in a row, after D. H. Klatt, "Software for a cascade/parallel formant
 * synthesizer", JASA 67 (1980), 971-995: the resonator (eq. 2), pulses through a resonator at 0 Hz, radiation as a first
 * difference, and hiss beside the formants. What a word is made of is its own matter (`count-words.ts`).
 */

/** One sound of a word. */
export interface Phone {
  /** The first three formants, hertz. */
  readonly formants: readonly [number, number, number];
  /** Their widths, hertz. */
  readonly widths: readonly [number, number, number];
  /** Of a nasal: what the closed mouth takes out, hertz. */
  readonly nasalZero?: number;
  /** Level of the voice, 0 to 1. */
  readonly voice: number;
  /** Level of breath through the formants, 0 to 1. */
  readonly breath: number;
  /** Hiss made at the teeth, lips or tongue: where its energy lies, and its level, 0 to 1. */
  readonly hiss?: { readonly hertz: number; readonly width: number; readonly level: number };
}

/** A sound and how long it lasts. */
export interface PhoneSpan {
  readonly phone: Phone;
  readonly seconds: number;
}

/** From here on the voice falls, hertz. Chosen, not measured: a speaking man's. */
const PITCH = { from: 138, to: 104 } as const;
/**
 * Formants that stay as they are, hertz: to the sixth after Klatt 1980, table I, made for 10,000 samples a second; with more
 * samples there are more, a thousand hertz apart as in a pipe of a mouth's length (Fant, Acoustic Theory of Speech Production,
 * 1960 [M]). Without them all that hisses and the ends of vowels are dull.
 */
const UPPER = [
  { hertz: 3300, width: 250 },
  { hertz: 3750, width: 200 },
  { hertz: 4900, width: 1000 },
  { hertz: 6000, width: 1000 },
  { hertz: 7000, width: 1000 },
] as const;
/** The nose: where its zero lies on it, it is not heard (Klatt 1980, table I). */
const NOSE = { hertz: 270, width: 100 } as const;
const PULSE = { hertz: 0, width: 300 } as const;
/** A sound passes into the next within this time, seconds: its formants, and its levels. Chosen, not measured. */
const GLIDE_SECONDS = 0.055;
const SWITCH_SECONDS = 0.012;
/** Parameters change this often, samples. */
const FRAME = 32;
/** Levels of the three sources beside each other. Chosen by ear's stand-in, the spectrum. */
const SOURCE = { voice: 2, breath: 0.03, hiss: 0.12 } as const;
const PEAK = 0.8;

/** The samples of one word, between -1 and 1, the same every time. */
export function speak(spans: readonly PhoneSpan[], sampleRate: number): Float32Array {
  const seconds = spans.reduce((all, span) => all + span.seconds, 0);
  const length = Math.round(seconds * sampleRate);
  const out = new Float32Array(length);
  const hissNoise = noise(length, 11);
  const breathNoise = noise(length, 13);
  const pulse = resonator(sampleRate);
  pulse.set(PULSE.hertz, PULSE.width);
  const formants = [0, 1, 2].map(() => resonator(sampleRate));
  const nose = resonator(sampleRate);
  nose.set(NOSE.hertz, NOSE.width);
  const mouth = antiresonator(sampleRate);
  const upper = UPPER.map(({ hertz, width }) => {
    const one = resonator(sampleRate);
    one.set(hertz, width);
    return one;
  });
  const teeth = resonator(sampleRate);
  let phase = 0;
  let before = 0;
  let now = soundAt(spans, 0);
  for (let i = 0; i < length; i++) {
    if (i % FRAME === 0) {
      now = soundAt(spans, i / sampleRate);
      now.formants.forEach((hertz, n) => formants[n]!.set(hertz, now.widths[n]!));
      mouth.set(now.nasalZero ?? NOSE.hertz, NOSE.width);
      if (now.hiss) teeth.set(now.hiss.hertz, now.hiss.width);
    }
    phase += (PITCH.from + ((PITCH.to - PITCH.from) * i) / length) / sampleRate;
    const isPulse = phase >= 1;
    if (isPulse) phase -= 1;
    const voiced = pulse.next(isPulse ? sampleRate / 1000 : 0) * SOURCE.voice * now.voice;
    const breath = breathNoise[i]! * SOURCE.breath * now.breath;
    let sample = nose.next(mouth.next(voiced + breath));
    for (const formant of formants) sample = formant.next(sample);
    for (const one of upper) sample = one.next(sample);
    const radiated = ((sample - before) * sampleRate) / 1000;
    before = sample;
    const hiss = now.hiss ? teeth.next(hissNoise[i]!) * SOURCE.hiss * now.hiss.level : 0;
    out[i] = radiated + hiss;
  }
  return mix(sampleRate, PEAK, [[1, out]]);
}

/** The parameters at a time: held within a sound, and led over into its neighbours around their border. */
function soundAt(spans: readonly PhoneSpan[], atSeconds: number): Phone {
  let start = 0;
  let index = 0;
  while (index < spans.length - 1 && atSeconds >= start + spans[index]!.seconds) {
    start += spans[index]!.seconds;
    index++;
  }
  const { phone, seconds } = spans[index]!;
  const isEarly = atSeconds - start < seconds / 2;
  const other = spans[isEarly ? index - 1 : index + 1];
  const distance = isEarly ? atSeconds - start : start + seconds - atSeconds;
  if (!other) return phone;
  const room = Math.min(seconds, other.seconds);
  // At the border both have their half.
  const towards = (within: number) => Math.max(0, 0.5 - distance / Math.min(within, room));
  const glide = towards(GLIDE_SECONDS);
  const turn = towards(SWITCH_SECONDS);
  const between = (a: number, b: number, share: number) => a + (b - a) * share;
  const hiss = phone.hiss ?? other.phone.hiss;
  const three = (a: Phone['formants'], b: Phone['formants']) =>
    a.map((one, n) => between(one, b[n]!, glide)) as unknown as Phone['formants'];
  const zero = ({ nasalZero = NOSE.hertz }: Phone) => nasalZero;
  return {
    formants: three(phone.formants, other.phone.formants),
    widths: three(phone.widths, other.phone.widths),
    nasalZero: between(zero(phone), zero(other.phone), glide),
    voice: between(phone.voice, other.phone.voice, turn),
    breath: between(phone.breath, other.phone.breath, turn),
    ...(hiss && {
      hiss: {
        ...hiss,
        level: between(phone.hiss?.level ?? 0, other.phone.hiss?.level ?? 0, turn),
      },
    }),
  };
}

/** Klatt's digital antiresonator: a resonator turned round. */
function antiresonator(sampleRate: number) {
  let [a, b, c] = [1, 0, 0];
  let x1 = 0;
  let x2 = 0;
  return {
    set(hertz: number, width: number) {
      [a, b, c] = coefficients(sampleRate, hertz, width);
    },
    next(x: number): number {
      const y = (x - b * x1 - c * x2) / a;
      x2 = x1;
      x1 = x;
      return y;
    },
  };
}

/** Klatt's digital resonator. */
function resonator(sampleRate: number) {
  let [a, b, c] = [1, 0, 0];
  let y1 = 0;
  let y2 = 0;
  return {
    set(hertz: number, width: number) {
      [a, b, c] = coefficients(sampleRate, hertz, width);
    },
    next(x: number): number {
      const y = a * x + b * y1 + c * y2;
      y2 = y1;
      y1 = y;
      return y;
    },
  };
}

function coefficients(sampleRate: number, hertz: number, width: number): [number, number, number] {
  const shrink = Math.exp((-Math.PI * width) / sampleRate);
  const b = 2 * shrink * Math.cos((2 * Math.PI * hertz) / sampleRate);
  const c = -(shrink ** 2);
  return [1 - b - c, b, c];
}
