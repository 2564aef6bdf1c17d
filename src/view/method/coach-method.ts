import { SURE_FROM } from '../../capture/capture-finding';
import {
  FEWEST_STROKES,
  WARM_UP_STROKES,
  WIDEST_SPREAD_MS,
} from '../../clock/latency/tap-estimate';
import { FEWEST_UNITS, UNIT_NOTES } from '../../coach/evidence/units';
import { LEAST_CONTRAST_DB } from '../../coach/faults/levels';
import { LEAST_EVIDENCE, MIN_TIMES } from '../../coach/faults/where';
import { MOST_FINDINGS } from '../../coach/findings';
import { CERTAIN, INFORMATIVE } from '../../coach/place/place-follower';
import { FEWEST_RETURNS, WITHIN_CHANCE } from '../../coach/return-words';
import { ERROR_RATE } from '../../coach/take-evidence';
import { methodNumber, ms, percent, plain, type MethodEntry } from './method-entry';

/** What the coach says, and what is measured of rig and capture. */
export const COACH_METHOD = {
  findings: {
    name: 'What stands out',
    what: 'The sentence to work on: the shortest explanation of a take that its strokes support. Silence is a result, too.',
    how: [
      'Differences of time are means over stretches of the take, with Student’s t; shares of faults must be above their limit by the lower end of the Wilson interval. One error rate is shared by all limbs, voices, positions and looks. While you play each look back has a fortieth of it. What listeners do not notice is not told: 6 ms where strokes are closer than 240 ms, 2.5 % of their distance above. One cause is told once, the most costly first.',
    ],
    numbers: [
      methodNumber(
        { ERROR_RATE },
        percent,
        'of takes in which there is nothing may be told anything at all',
      ),
      methodNumber({ UNIT_NOTES }, plain, 'notes that a stretch has at least'),
      methodNumber({ FEWEST_UNITS }, plain, 'stretches that it takes to say anything about time'),
      methodNumber({ LEAST_EVIDENCE }, plain, 'notes that a share of faults takes'),
      methodNumber({ MIN_TIMES }, plain, 'times that a fault must have come'),
      methodNumber(
        { LEAST_CONTRAST_DB },
        (db) => `${db} dB`,
        'of contrast, from which a phrase is heard as in two layers',
      ),
      methodNumber({ MOST_FINDINGS }, plain, 'findings at most'),
    ],
    source:
      'Friberg & Sundberg 1995, JASA 98:2524, for what is noticed; Holm 1979 for the shared error rate.',
  },
  'lost place': {
    name: 'Lost place',
    what: 'That the phrase has slipped against the bar, by how much and which way.',
    how: [
      'Every place in the pattern keeps a probability, which each stroke and each rest raises or lowers. It is told once one other place is certain.',
    ],
    numbers: [
      methodNumber({ CERTAIN }, percent, 'probability from which a place is certain'),
      methodNumber(
        { INFORMATIVE },
        plain,
        'partials at least that fit the new place and not the old one',
      ),
    ],
    source: 'Bayes’ rule over the places of the pattern.',
  },
  returns: {
    name: 'Bars without a click',
    what: 'How far off the click’s return found you, and how much of that is chance.',
    how: [
      'The mean offset of the last beat without a click and of what falls on its return, less that of the bars with a click before. Chance is twice the spread beside the click times the root of the beats without it: a steady player stays within it 19 times of 20.',
    ],
    numbers: [
      methodNumber(
        { WITHIN_CHANCE },
        plain,
        'times the chance spread, within which nothing is said',
        'Two standard errors: 95 %.',
      ),
      methodNumber({ FEWEST_RETURNS }, plain, 'returns that a mean takes'),
    ],
    source: 'A random walk of beats: Wing & Kristofferson 1973, Percept. Psychophys. 14:5.',
  },
  'offset of the rig': {
    name: 'Offset of the rig',
    what: 'What sound output, kit and cable add to every offset. It is taken off; your own habit is not.',
    how: [
      'By microphone: time stamp of the strike − time of a click that would be heard together with it. The microphone’s own delay is in both and falls out. From playing: where your strokes lie around the click, your habit included.',
      'Both are the median of the means of all pairs of strokes, with its exact 95 % interval.',
    ],
    numbers: [
      methodNumber({ WARM_UP_STROKES }, plain, 'first strokes to the click that do not count'),
      methodNumber({ FEWEST_STROKES }, plain, 'strokes to the click that it takes'),
      methodNumber({ WIDEST_SPREAD_MS }, ms, 'of spread: more, and you are asked to play again'),
    ],
    source: 'Hodges & Lehmann 1963, Ann. Math. Stat. 34:598.',
  },
  capture: {
    name: 'How sure capture is',
    what: 'How likely it is that tempo, cycle, notes and hands were heard rightly, 0 to 100 %.',
    how: [
      'The reading that explains the strokes in the fewest words is taken; how much longer the next best one is says how sure that is.',
    ],
    numbers: [
      methodNumber(
        { SURE_FROM },
        percent,
        'from which it says “sure”',
        'Chosen so that most wrong readings of the benchmark fall below.',
      ),
    ],
    source: 'Minimum description length: Rissanen 1978, Automatica 14:465.',
  },
} as const satisfies Record<string, MethodEntry>;
