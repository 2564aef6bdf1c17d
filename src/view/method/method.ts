import { COACH_METHOD } from './coach-method';
import { FIGURE_METHOD } from './figure-method';
import { LEVEL_METHOD } from './level-method';
import type { MethodEntry } from './method-entry';
import { PASSING_METHOD } from './passing-method';
import { PHRASE_METHOD } from './phrase-method';
import { STROKE_METHOD } from './stroke-method';

const ALL = {
  ...STROKE_METHOD,
  ...FIGURE_METHOD,
  ...LEVEL_METHOD,
  ...PASSING_METHOD,
  ...COACH_METHOD,
  ...PHRASE_METHOD,
};

/** What can be asked about. */
export type MethodName = keyof typeof ALL;

/** How it is worked out, whatever a screen tells: the same words where it stands and on the page of methods. */
export const METHOD: Readonly<Record<MethodName, MethodEntry>> = ALL;

/** In the order of the page. */
export const METHOD_GROUPS: readonly (readonly [string, readonly MethodName[]])[] = [
  ['Which stroke answers which note', namesOf(STROKE_METHOD)],
  ['Time', namesOf(FIGURE_METHOD)],
  ['Loudness and the kit', namesOf(LEVEL_METHOD)],
  ['Passing, and how sure a figure is', namesOf(PASSING_METHOD)],
  ['The coach, the rig and capture', namesOf(COACH_METHOD)],
  ['Phrases and variations', namesOf(PHRASE_METHOD)],
];

function namesOf<Name extends MethodName>(entries: Readonly<Record<Name, MethodEntry>>): Name[] {
  return Object.keys(entries) as Name[];
}
