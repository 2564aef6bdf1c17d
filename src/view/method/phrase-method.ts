import { DIFFICULTY_WEIGHTS } from '../../phrase/playability/difficulty';
import { METRES_PER_SECOND } from '../../phrase/playability/moves';
import { FASTEST_PER_SECOND, SUSTAINED_PER_SECOND } from '../../phrase/playability/rates';
import { DISTANCE_COSTS } from '../../phrase/vary/distance';
import { methodNumber, plain, type MethodEntry } from './method-entry';

const { speed, travel, together, levels } = DIFFICULTY_WEIGHTS;
const { moveByBeat, voice, level, graces, cycleBeat } = DISTANCE_COSTS;

/** Figures of written phrases. */
export const PHRASE_METHOD = {
  distance: {
    name: 'Distance',
    what: 'How much of a phrase is another one: 0 is the same phrase, 1 is one note more or less in a cycle.',
    how: [
      'The least cost of turning one phrase into the other, limb by limb, in one cycle. A note put in or left out costs 1; what else may change costs this:',
    ],
    numbers: [
      methodNumber({ moveByBeat }, plain, 'for each beat that a note moves'),
      methodNumber({ voice }, plain, 'for another voice'),
      methodNumber({ level }, plain, 'for another level'),
      methodNumber({ graces }, plain, 'for other grace notes'),
      methodNumber({ cycleBeat }, plain, 'for each beat by which the cycles differ in length'),
    ],
    source:
      'The labelled distance of spike trains: Victor & Purpura 1996, J. Neurophysiol. 76:1310.',
  },
  difficulty: {
    name: 'Difficulty',
    what: 'How much a phrase asks of a body at a tempo: 0 asks for nothing, at 100 every part of it is at its limit.',
    how: [
      `${speed} × strokes a second of the busiest limb / ${SUSTAINED_PER_SECOND} + ${travel} × metres a second of the hand that travels most / ${METRES_PER_SECOND} + ${together} × share of moments with two limbs or more + ${levels} × share of a limb’s strokes at another level than the one before.`,
    ],
    numbers: [
      methodNumber(
        { SUSTAINED_PER_SECOND },
        plain,
        'strokes a second that a limb keeps up',
        'Fujii and others 2009, Neuroscience Letters 459; none is known for feet.',
      ),
      methodNumber(
        { FASTEST_PER_SECOND },
        plain,
        'strokes a second of the fastest hand measured',
        'The same.',
      ),
      methodNumber({ METRES_PER_SECOND }, plain, 'metres a second that a hand can go'),
    ],
    source:
      'The weights are chosen, not measured. The kit’s places are those of a right-handed kit of five drums.',
  },
  seed: {
    name: 'Seed',
    what: 'A number that chooses which proposals are drawn.',
    how: [
      'Variations are drawn by chance. The same seed within the same limits draws the same list again, so you can come back to it; another seed draws another list.',
    ],
    numbers: [],
    source: 'Pseudo-random numbers that depend on the seed alone.',
  },
} as const satisfies Record<string, MethodEntry>;
