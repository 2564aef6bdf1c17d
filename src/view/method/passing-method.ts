import { CALLED_EVEN_WRONGLY } from '../../score/statistics/equivalence';
import { DISPERSION, LEEWAY } from '../../score/fault-share';
import { INDIFFERENCE, Trial } from '../../score/gate';
import { GATE_THRESHOLD, STRICTEST_THRESHOLD, WRONG_PASS } from '../../score/gate-options';
import { FEWEST_OF_A_NOTE, LAST_OWN_NOTES, OwnNotes, WRONG_IN_A_ROW } from '../../score/own-notes';
import { Z_95 } from '../../score/statistics/wilson';
import { methodNumber, percent, plain, type MethodEntry } from './method-entry';

/** With the usual threshold and certainty, of a layer that has no notes of its own. */
export const CLEAN_NOTES_TO_PASS = new Trial(new OwnNotes({ pickup: 0, notes: false }))
  .cleanNotesToPass;

/** When a layer is passed, and how sure a figure is. */
export const PASSING_METHOD = {
  passed: {
    name: 'Passed',
    what: `A layer is passed when it is sure enough that you play it, and when its own notes are right. Without a mistake that takes ${CLEAN_NOTES_TO_PASS} notes.`,
    how: [
      'All notes: after every note the evidence is weighed. A note as written adds ln((1 − good) / (1 − bad)) / d, a wrong note or an extra stroke takes away ln(bad / good) / d, where good and bad are the shares of faults 5 points better and 5 points worse than the threshold allows, and d allows for faults that come in runs. It passes at ln(1 / chance of a wrong pass). The evidence never falls below a floor, so an old bad stretch is made up for. However often it is looked at, the chance of a wrong pass stays what was asked.',
      `Own notes, those that the layer itself added or changed: of the last ${LAST_OWN_NOTES} at most two were wrong (of fewer than that at most one, of two none), no note that came at least ${FEWEST_OF_A_NOTE} times was wrong each of its last ${WRONG_IN_A_ROW} times, and the pickup played last was right as a whole.`,
      'A trial begins with the layer, with a change of tempo, where the phrase has waited for you or begun again, and at “Count from now on”. Only what you play passes: the simulated player and files do not.',
    ],
    numbers: [
      methodNumber(
        { GATE_THRESHOLD },
        percent,
        'share as written that is asked for; it can be set',
      ),
      methodNumber({ STRICTEST_THRESHOLD }, percent, 'the strictest that it can be set to'),
      methodNumber(
        { INDIFFERENCE },
        percent,
        'to each side of the threshold, between which the test does not care; a third of the room where that is less',
      ),
      methodNumber(
        { WRONG_PASS },
        percent,
        'chance that somebody 5 points worse passes; it can be set',
      ),
      methodNumber(
        { DISPERSION },
        plain,
        'd: how much more runs of faults vary than single ones',
        'Between single faults and runs of two on average (2.2 to 2.8, computed).',
      ),
      methodNumber(
        { LEEWAY },
        (value) => `−${value}`,
        'the floor of the evidence',
        'Chosen by simulation, with the chance of a wrong pass.',
      ),
      methodNumber({ LAST_OWN_NOTES }, plain, 'own notes looked at'),
      methodNumber(
        { FEWEST_OF_A_NOTE },
        plain,
        'times that a note came before it counts',
        'One right note may be luck.',
      ),
      methodNumber({ WRONG_IN_A_ROW }, plain, 'times in a row that a note may not be wrong'),
    ],
    source:
      'The sequential test of a share: Wald, Sequential Analysis, 1947, chapter 5; its floor as in Page 1954, Biometrika 41. From 10,000 simulated players each, mistakes in runs of two: of those at 75 % 1 in 1,000 passes in ten minutes, at 80 % 4 in 100, at 90 % or better all.',
  },
  interval: {
    name: '“Between … and …”, 95 %',
    what: 'Where the true figure lies, so many strokes being what they are.',
    how: [
      'Of a share: the Wilson interval, whose middle is (p + z²/2n) / (1 + z²/n) and half-width z √(p(1 − p)/n + z²/4n²) / (1 + z²/n). Of a mean: Student’s t over stretches of the take, since one stroke is not independent of the next.',
      '“Even” is said only where the difference is shown to be too small to hear, by two one-sided tests.',
    ],
    numbers: [
      methodNumber(
        { Z_95 },
        (value) => value.toFixed(2),
        'z of such an interval',
        'Two-sided 95 %: Φ⁻¹(0.975).',
      ),
      methodNumber(
        { CALLED_EVEN_WRONGLY },
        percent,
        'chance of calling even what just is not',
        'Usual, chosen.',
      ),
    ],
    source:
      'Wilson 1927, JASA 22:209; Brown, Cai & DasGupta 2001, Statist. Sci. 16:101; Schuirmann 1987, J. Pharmacokinet. Biopharm. 15:657.',
  },
} as const satisfies Record<string, MethodEntry>;
