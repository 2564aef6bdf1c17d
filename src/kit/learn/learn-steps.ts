import { VOICES, type Voice } from '../../phrase/model/voice';

/** One thing to strike while a kit is learned. */
export interface LearnStep {
  /** The pad zone, as it will stand in the kit. */
  readonly name: string;
  readonly voice: Voice;
  readonly group: string;
  /** What to do, one sentence. */
  readonly ask: string;
  /** Hi-hat zones are struck twice: with the pedal down and with the foot off it. */
  readonly zone?: 'bow' | 'edge';
}

const step = (name: string, voice: Voice, group: string, ask: string): LearnStep => ({
  name,
  voice,
  group,
  ask,
});
const tom = (number: number, which: string, voice: Voice): LearnStep[] => [
  step(
    `tom ${number} head`,
    voice,
    `tom ${number}`,
    `Strike the ${which} tom in the middle of the head.`,
  ),
  step(`tom ${number} rim`, voice, `tom ${number}`, `Strike the rim of the ${which} tom.`),
];
const hat = (zone: 'bow' | 'edge', open: boolean): LearnStep => ({
  name: `hi-hat ${open ? 'open' : 'closed'} ${zone}`,
  voice: open ? 'hi-hat open' : 'hi-hat closed',
  group: 'hi-hat',
  ask: open
    ? `Take your foot off the hi-hat pedal and strike the ${zone}.`
    : `Hold the hi-hat pedal down and strike the ${zone}.`,
  zone,
});
const cymbal = (group: string, voice: Voice, zone: string): LearnStep =>
  step(
    `${group} ${zone}`,
    voice,
    group,
    `Strike the ${zone} of ${group === 'ride' ? 'the ride' : group}.`,
  );

/**
 * All that can be asked for, in the order of asking. Every step can be skipped. The pedal comes before the hi-hat's zones:
 * whoever holds it down for them makes it send its note, which is then known.
 */
export const LEARN_STEPS: readonly LearnStep[] = [
  step('bass drum', 'bass drum', 'bass drum', 'Play the bass drum.'),
  step('snare head', 'snare', 'snare', 'Strike the snare in the middle of the head.'),
  step('snare rim', 'snare', 'snare', 'Strike head and rim of the snare together.'),
  step('snare side stick', 'side stick', 'snare', 'Lay the stick across the snare: a side stick.'),
  ...tom(1, 'high', 'high tom'),
  ...tom(2, 'mid', 'mid tom'),
  ...tom(3, 'floor', 'floor tom'),
  step(
    'hi-hat pedal',
    'hi-hat pedal',
    'hi-hat pedal',
    'Close the hi-hat with the foot alone, firmly, and keep it closed.',
  ),
  step(
    'hi-hat foot splash',
    'hi-hat foot splash',
    'hi-hat pedal',
    'Splash the hi-hat with the foot: close it and let it ring.',
  ),
  hat('bow', false),
  hat('edge', false),
  hat('bow', true),
  hat('edge', true),
  cymbal('crash 1', 'crash', 'bow'),
  cymbal('crash 1', 'crash', 'edge'),
  cymbal('crash 2', 'crash', 'bow'),
  cymbal('crash 2', 'crash', 'edge'),
  cymbal('ride', 'ride', 'bow'),
  cymbal('ride', 'ride', 'edge'),
  cymbal('ride', 'ride bell', 'bell'),
  step('splash', 'splash', 'splash', 'Strike the splash.'),
  step('china', 'china', 'china', 'Strike the china.'),
  step('cowbell', 'cowbell', 'cowbell', 'Strike the cowbell.'),
];

/** Where one stroke a voice is enough, nobody has to know of bows and edges. */
const SHORT_ASKS: Partial<Record<Voice, string>> = {
  snare: 'Strike the snare.',
  'high tom': 'Strike the high tom.',
  'mid tom': 'Strike the mid tom.',
  'floor tom': 'Strike the floor tom.',
  'hi-hat closed': 'Keep the pedal down and strike the hi-hat.',
  'hi-hat open': 'Take your foot off the pedal and strike the hi-hat.',
  crash: 'Strike the crash.',
  ride: 'Strike the ride.',
};

/**
 * One step a voice, for pads that somebody is about to play, in the order of `LEARN_STEPS` and the voices it does not know
 * after them. Where the hi-hat is struck, it is struck closed and open and its pedal is stepped on, since only so a
 * pedal shows that it is reversed or stuck.
 *
 * @example stepsFor(['ride', 'bass drum']).map(({ ask }) => ask) // => ['Play the bass drum.', 'Strike the ride.']
 */
export function stepsFor(voices: Iterable<Voice>): readonly LearnStep[] {
  const wanted = new Set(voices);
  if (wanted.has('hi-hat closed') || wanted.has('hi-hat open'))
    for (const voice of ['hi-hat pedal', 'hi-hat closed', 'hi-hat open'] as const)
      wanted.add(voice);
  const firsts = LEARN_STEPS.filter(
    ({ voice }, i) => LEARN_STEPS.findIndex((other) => other.voice === voice) === i,
  );
  return [
    ...firsts
      .filter(({ voice }) => wanted.has(voice))
      .map((first) => ({ ...first, ask: SHORT_ASKS[first.voice] ?? first.ask })),
    ...VOICES.filter(
      (voice) => wanted.has(voice) && !firsts.some((first) => first.voice === voice),
    ).map((voice) => step(voice, voice, voice, `Strike the ${voice}.`)),
  ];
}
