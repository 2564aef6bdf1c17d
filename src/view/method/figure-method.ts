import { FEWEST_FOR_DRIFT, SHORTEST_FOR_DRIFT_US } from '../../score/figures';
import { MAD_TO_SPREAD } from '../../score/statistics/spread';
import { FEWEST_FOR_SWING } from '../../score/swing-ratio';
import { FULL_PAIRS } from '../../score/statistics/theil-sen';
import { FEWEST_NOTES } from '../../live/gathered-cycles';
import { methodNumber, plain, type MethodEntry } from './method-entry';

/** The figures of time. */
export const FIGURE_METHOD = {
  'as written': {
    name: 'As written',
    what: 'Notes that were right in everything: in time, in their voice and at their level.',
    how: [
      'Share as written = notes as written / notes that were due. It is rounded down, so 100 % means all of them.',
      'While you play, figures come after whole cycles; short cycles are told together.',
    ],
    numbers: [
      methodNumber({ FEWEST_NOTES }, plain, 'notes that the cycles told together have at least'),
    ],
    source: 'A plain count.',
  },
  offset: {
    name: 'Offset',
    what: 'How early or late the strokes are on average, in milliseconds: minus is early, plus is late.',
    how: [
      'Offset = time of the stroke − time of the note, from the stamp that the kit’s message carries. The figure is the mean over the notes that were answered in their own voice. The offset of the rig is taken off first, where it is known.',
      'The median beside it is the middle one of all offsets.',
    ],
    numbers: [],
    source: 'The mean and the median of the offsets.',
  },
  spread: {
    name: 'Spread',
    what: 'How far the offsets scatter, in milliseconds. Small is even, wherever the strokes lie.',
    how: ['The standard deviation of the offsets: √( Σ (offset − mean)² / (n − 1) ).'],
    numbers: [],
    source: 'The usual estimate; checked against the reference sets of NIST.',
  },
  'robust spread': {
    name: 'Robust spread',
    what: 'The spread again, hardly moved by a few wild strokes.',
    how: [
      'The median of |offset − median|, times a factor that makes it equal to the spread where nothing is wild.',
    ],
    numbers: [
      methodNumber(
        { MAD_TO_SPREAD },
        (value) => value.toFixed(4),
        'the factor',
        'Computed: 1 / Φ⁻¹(3/4).',
      ),
    ],
    source: 'Hampel 1974, JASA 69:383.',
  },
  drift: {
    name: 'Drift',
    what: 'How the offset moves while you play, in milliseconds a minute: plus is dragging, minus rushing.',
    how: [
      'The median of the slopes between all pairs of strokes. Of long takes each stroke is compared with the one half the take later.',
    ],
    numbers: [
      methodNumber({ FEWEST_FOR_DRIFT }, plain, 'strokes that it takes'),
      methodNumber({ SHORTEST_FOR_DRIFT_US }, (us) => `${us / 1e6} s`, 'that they last at least'),
      methodNumber({ FULL_PAIRS }, plain, 'strokes up to which all pairs are compared'),
    ],
    source: 'Theil 1950, Proc. KNAW 53; Sen 1968, JASA 63:1379.',
  },
  swing: {
    name: 'Swing',
    what: 'How long the first part of a beat was against the second: 1 is straight, 2 a triplet.',
    how: [
      'Share of the beat before the off-beat = written share + (mean offset off the beat − mean offset on it) / length of a beat; the ratio is share / (1 − share). It is told and not corrected.',
    ],
    numbers: [
      methodNumber(
        { FEWEST_FOR_SWING },
        plain,
        'strokes on the beat, and as many off it, that it takes',
      ),
    ],
    source: 'Friberg & Sundström 2002, Music Perception 19:333, for how it falls with the tempo.',
  },
} as const satisfies Record<string, MethodEntry>;
