import {
  DEFAULT_REACH_MS,
  DEFAULT_TOLERANCE_MS,
  TOLERANCE_OF_PARTIAL,
} from '../../match/hit-window';
import { GRACE_US } from '../../match/follower';
import { MAX_REACH_US } from '../../match/pair-weight';
import { GRACE_STEP_MS, GRACE_STEP_OF_PARTIAL } from '../../match/timed-notes';
import { methodNumber, ms, percent, usInMs, type MethodEntry } from './method-entry';

/** Which stroke answers which note, and what the note gets. */
export const STROKE_METHOD = {
  'hit window': {
    name: 'Hit window',
    what: 'The time around a note in which a stroke can answer it: the pale band on the lane.',
    how: [
      'Every stroke answers at most one note, and every note is answered by at most one stroke. Of all ways to pair them the one of least cost is taken. A missed note costs 1, an extra stroke costs 1, and a pair costs 2 × |offset| / half the window, plus 1 where the voices differ.',
      'So a stroke of the right voice can answer a note up to half the window away, one of another voice up to half of that. Where two ways cost the same: more pairs of the right voice, then the nearest pairs, then the earlier note, then the earlier stroke.',
      'Grace notes are due ahead of their main note.',
    ],
    numbers: [
      methodNumber(
        { DEFAULT_REACH_MS },
        ms,
        'half the window, or one partial where that is less; it can be set',
      ),
      methodNumber(
        { MAX_REACH_US },
        usInMs,
        'the widest that it can be set to',
        'Wider ones could not be compared exactly.',
      ),
      methodNumber({ GRACE_STEP_MS }, ms, 'how far ahead of its main note a grace note is due'),
      methodNumber({ GRACE_STEP_OF_PARTIAL }, percent, 'of a partial, where that is less'),
      methodNumber(
        { GRACE_US },
        usInMs,
        'after its window a note waits so long for a stroke that comes late, before it is called missed; what comes later still counts',
      ),
    ],
    source:
      'The labelled distance of spike trains: Victor & Purpura 1996, J. Neurophysiol. 76:1310; Aronov and others 2003, J. Neurophysiol. 89:3304.',
  },
  'in time': {
    name: 'In time, early, late',
    what: 'Whether the stroke that answers a note was near enough to it.',
    how: [
      'In time is at most the tolerance away, its edge included. Beyond it the stroke is early or late; a stroke on another voice is a wrong voice, whenever it comes; a note that no stroke answers is missed.',
    ],
    numbers: [
      methodNumber({ DEFAULT_TOLERANCE_MS }, ms, 'the tolerance; it can be set'),
      methodNumber({ TOLERANCE_OF_PARTIAL }, percent, 'of a partial, where that is less'),
    ],
    source: 'Common practice, no source.',
  },
  'extra strokes': {
    name: 'Extra strokes',
    what: 'Strokes that answer no note. Each counts against passing like a wrong note.',
    how: [
      'What the kit did by itself (double triggers, crosstalk) and commands are no strokes of yours and are not counted.',
    ],
    numbers: [],
    source: 'See “Hit window” and “Set aside”.',
  },
  missed: {
    name: 'Missed',
    what: 'Notes that no stroke answers.',
    how: [
      'A stroke outside of the hit window answers nothing: the note is missed and the stroke is extra.',
    ],
    numbers: [],
    source: 'See “Hit window”.',
  },
} as const satisfies Record<string, MethodEntry>;
