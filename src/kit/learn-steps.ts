import type { Voice } from '../phrase/model/voice';

/** One thing to strike on the learn screen. */
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
  step(`${group} ${zone}`, voice, group, `Strike the ${zone} of the ${group}.`);

/** What the learn screen asks for, in the order of asking. Every step can be skipped. */
export const LEARN_STEPS: readonly LearnStep[] = [
  step('bass drum', 'bass drum', 'bass drum', 'Play the bass drum.'),
  step('snare head', 'snare', 'snare', 'Strike the snare in the middle of the head.'),
  step('snare rim', 'snare', 'snare', 'Strike head and rim of the snare together.'),
  step('snare side stick', 'side stick', 'snare', 'Lay the stick across the snare: a side stick.'),
  ...tom(1, 'high', 'high tom'),
  ...tom(2, 'mid', 'mid tom'),
  ...tom(3, 'floor', 'floor tom'),
  hat('bow', false),
  hat('edge', false),
  hat('bow', true),
  hat('edge', true),
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
