import type { FactsOf, FindingCode } from '../../src/coach/wording';

export const SURE = { strokes: 1280, bars: 107, interval: { lower: -23.4, upper: -16.6 } };
const PLACING = { name: 'third triplet partials', ms: -20, isOwn: false, sure: SURE };

/** One sample of the longest kind for every code: the compiler asks for a new one with a new code. */
export const SAMPLES: { [Code in FindingCode]: FactsOf<Code> } = {
  undecided: { strokes: 21, of: 72 },
  even: { ms: 6 },
  'nothing stands out': undefined,
  'other tempo': { playedBpm: 87.1, clickBpm: 88 },
  'lost place': { partials: -12, subdivision: 4, fromBar: 107, toBar: 110, times: 2, repeats: 32 },
  'all strokes off': { ms: -15, sure: SURE },
  swing: { played: 1.52, written: 2, sure: SURE },
  'partial off': { ...PLACING, isOfLimb: true },
  'limb off': { ...PLACING, name: 'right hand' },
  'voice off': { ...PLACING, name: 'hi-hat foot splash' },
  'level off': { ...PLACING, name: 'accents' },
  'layer off': { ...PLACING, name: 'notes of “Around the kit”', layer: 4 },
  'position off': { ...PLACING, name: 'position 14, right hand' },
  'transition off': { ...PLACING, name: 'hi-hat closed to floor tom' },
  'unison off': {
    ...PLACING,
    name: 'right hand, with right foot',
    limbs: ['right hand', 'right foot'],
  },
  'spread apart': { name: 'third triplet partials', ms: 22.2, restMs: 11.8 },
  'spread grows': { fromMs: 8.2, toMs: 15.8 },
  spread: { ms: 21.4 },
  drift: { ms: 118.2, bars: 32, isGrowing: true },
  'silent bars': { ms: -118.2, returns: 12, sure: { lower: -123.4, upper: -116.6 } },
  missed: { name: 'position 14, right hand', times: 12, of: 20 },
  'own notes wrong': { layerName: 'Around the kit', how: 'in another voice', times: 12, of: 16 },
  'too loud': { name: 'hi-hat closed', level: 'ghost', times: 14, of: 120, db: 6.09 },
  'too soft': { name: 'position 14', level: 'accent', times: 14, of: 120, db: 3.2 },
  contrast: { db: 12.8, aimDb: 15, sure: SURE },
  'levels inverted': { db: -23 },
  'wrong voice': { written: 'floor tom', struck: 'high tom', times: 12, name: 'left hand' },
  'voice mapped': { written: 'hi-hat open', struck: 'hi-hat closed' },
  bounces: { name: 'right hand', times: 14, of: 120 },
  extras: { times: 12, mostOn: 'hi-hat closed', beside: 'position 14, right hand' },
};
