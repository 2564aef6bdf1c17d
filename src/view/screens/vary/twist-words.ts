import type { TwistKind } from '../../../practice/vary/twist-settings';

/** A twist by its name, and what it does. */
export const TWIST_WORDS: Readonly<Record<TwistKind, { name: string; does: string }>> = {
  rotate: {
    name: 'Rotate the sticking',
    does: 'The cycle starts with another of its partials; what is on them goes along.',
  },
  displace: {
    name: 'Displace',
    does: 'The same strokes, moved as a whole against the bar.',
  },
  subdivision: {
    name: 'Change the subdivision',
    does: 'The same strokes on other partials: three over triplets lies otherwise than three over eighths.',
  },
  cycle: {
    name: 'Change the cycle',
    does: 'The grouping is cut earlier, or goes on longer, before it starts again.',
  },
  'swap voices': { name: 'Swap voices', does: 'Two voices change places.' },
  mirror: { name: 'Mirror the hands', does: 'What the right hand played the left hand plays.' },
  'thin out': { name: 'Thin out', does: 'Some strokes rest; those that stay are spread evenly.' },
  'double strokes': {
    name: 'Double the strokes',
    does: 'Every stroke of a hand becomes two in the same time.',
  },
  orchestrate: {
    name: 'Orchestrate by limb',
    does: 'The strokes of one limb go to another voice.',
  },
  merge: {
    name: 'Merge two phrases',
    does: 'Another phrase sounds over this one, wherever its limbs are free.',
  },
};

export const DISTANCE_MEANS =
  'Distance is what turning one phrase into the other costs in a cycle, limb by limb: 1 for a note put in, left out or given another voice, 2 for each beat a note moves, a quarter for another level or other grace notes, and 1 for each beat the cycles differ in length.';

export const DIFFICULTY_MEANS =
  'Difficulty grows with strokes a second, ways between voices, limbs together and changes of level: 0 asks for nothing, 100 is the limit in all of them.';
