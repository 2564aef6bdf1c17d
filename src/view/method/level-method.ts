import { DEFAULT_BOUNDARIES } from '../../phrase/model/level';
import {
  CROSSTALK_UP_TO_PERCENT,
  CROSSTALK_US,
  DEFAULT_RETRIGGER_MS,
  RETRIGGER_BELOW_PERCENT,
} from '../../kit/pad-fault';
import {
  ONE_VELOCITY_AT_TOP,
  ONE_VELOCITY_FROM,
  ONE_VELOCITY_LIKE_ANOTHER,
} from '../../kit/velocity-runs';
import { LEAST_SEPARATION, MOST_OVERLAP } from '../../score/levels-apart';
import { methodNumber, ms, percent, plain, usInMs, type MethodEntry } from './method-entry';

const ofHundred = (value: number): string => `${value} %`;
const { ghostMax, accentMin } = DEFAULT_BOUNDARIES;

/** Loudness, and what is put down to the kit. */
export const LEVEL_METHOD = {
  level: {
    name: 'Ghost, tap, accent',
    what: 'Each note is judged at the level that is written: as written, too loud or too soft.',
    how: [
      'Two velocities of the pad decide: up to the first a stroke is a ghost, from the second on an accent, between them a tap. A ghost above its limit is too loud, an accent below its own too soft. A tap is too loud in the accents’ zone where the layer has accents, too soft in the ghosts’ zone where it has ghosts. A layer with neither asks for no level, nor do the hi-hat pedal’s strokes.',
      'Learned limits are the cuts that put the fewest of your strokes on the wrong side, in the middle of the widest gap.',
      'A pad that sends one velocity whatever is struck has no levels, and none are judged there.',
    ],
    numbers: [
      methodNumber({ ghostMax }, plain, 'velocity of the loudest ghost, until yours are learned'),
      methodNumber({ accentMin }, plain, 'velocity of the softest accent, until yours are learned'),
      methodNumber(
        { MOST_OVERLAP },
        percent,
        'of the strokes on the wrong side of a learned limit: more, and you are warned',
      ),
      methodNumber(
        { LEAST_SEPARATION },
        plain,
        'separation of two levels on a pad: less, and you are warned',
      ),
      methodNumber(
        { ONE_VELOCITY_FROM },
        plain,
        'strokes of one velocity with which a pad begins, from which it has no levels',
        'Twice the longest such run of ten professional drummers (Groove MIDI Dataset, 2019).',
      ),
      methodNumber(
        { ONE_VELOCITY_AT_TOP },
        plain,
        'the same at velocity 127, where hard strokes end up',
        'From the same takes.',
      ),
      methodNumber(
        { ONE_VELOCITY_LIKE_ANOTHER },
        plain,
        'the same where another pad sends that velocity alone',
        'From the same takes.',
      ),
    ],
    source: 'The limits are your own, learned pad by pad.',
  },
  contrast: {
    name: 'Contrast',
    what: 'How far your accents stand above your ghosts, in decibels.',
    how: [
      'Contrast = median level of the accents − median level of the ghosts, level = 40 × log₁₀(velocity / 127) dB. Twice the velocity is 12 dB. How loud the kit plays a velocity is not known, so compare the figure with your own of other days.',
    ],
    numbers: [],
    source:
      'The volume law of General MIDI (GM Level 1 Developer Guidelines); Dannenberg 2006, Proc. ICMC 193, on how modules differ.',
  },
  separation: {
    name: 'Separation',
    what: 'How surely an accent of yours is louder than a ghost of yours: 1 is always, 0.5 is chance.',
    how: [
      'The share of all pairs of one accent and one ghost in which the accent is louder; equal ones count one half.',
    ],
    numbers: [],
    source: 'The area under the ROC curve: Hanley & McNeil 1982, Radiology 143:29.',
  },
  'set aside': {
    name: 'Set aside: double triggers and crosstalk',
    what: 'What the kit did by itself. It is counted and shown, and never held against you.',
    how: [
      'A second, weaker message of a pad soon after a stroke is a double trigger. A faint message of a pad beside a strong stroke on another is crosstalk. Both are taken out before strokes and notes are paired.',
    ],
    numbers: [
      methodNumber(
        { DEFAULT_RETRIGGER_MS },
        ms,
        'after a stroke in which a double trigger comes; a kit can say its own',
        'Chosen, not measured: under the 30 ms between the strokes of a quick drag (common practice, no source).',
      ),
      methodNumber(
        { RETRIGGER_BELOW_PERCENT },
        ofHundred,
        'of the first one’s velocity, which a double trigger stays below',
        'Chosen so that real rolls stay (Groove MIDI Dataset).',
      ),
      methodNumber({ CROSSTALK_US }, usInMs, 'before or after the strong stroke'),
      methodNumber(
        { CROSSTALK_UP_TO_PERCENT },
        ofHundred,
        'of its velocity at most',
        'Chosen: of 4,341 strokes of real takes it sets one aside (Groove MIDI Dataset).',
      ),
    ],
    source: 'Which notes belong to one pad is in the kit’s note map.',
  },
} as const satisfies Record<string, MethodEntry>;
