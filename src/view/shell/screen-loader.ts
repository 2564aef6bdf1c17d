import type { Component } from 'svelte';
import { restOfPractise } from '../screens/practise/rest-of-practise';
import { fetchedOnce } from './fetched-once';
import {
  FIRST_START,
  KEEPING,
  METHODS,
  OFFSET_OF_RIG,
  WHAT_IT_SENDS,
  type Route,
  type Screen,
} from './route';

export type ScreenComponent = Component<{ id?: string | undefined }>;

export interface LaterRoute extends Route {
  readonly screen: Exclude<Screen, 'practise'>;
}

const screen = (fetchIt: () => Promise<{ readonly default: unknown }>) =>
  fetchedOnce(async () => (await fetchIt()).default as ScreenComponent);

/** Every screen but Practise comes when it is needed. */
const SCREENS = {
  phrases: screen(() => import('../screens/phrases/PhrasesScreen.svelte')),
  compose: screen(() => import('../screens/compose/ComposeScreen.svelte')),
  vary: screen(() => import('../screens/vary/VaryScreen.svelte')),
  capture: screen(() => import('../screens/capture/CaptureScreen.svelte')),
  open: screen(() => import('../screens/open/OpenScreen.svelte')),
  sheet: screen(() => import('../screens/sheet/SheetScreen.svelte')),
  kit: screen(() => import('../screens/kit/KitScreen.svelte')),
  [WHAT_IT_SENDS]: screen(() => import('../screens/diagnostics/DiagnosticsScreen.svelte')),
  [OFFSET_OF_RIG]: screen(() => import('../screens/kit/offset/OffsetScreen.svelte')),
  [FIRST_START]: screen(() => import('../screens/first-start/FirstStart.svelte')),
  [KEEPING]: screen(() => import('../screens/log/kept/WhatIsKept.svelte')),
  log: screen(() => import('../screens/log/LogScreen.svelte')),
  help: screen(() => import('../screens/help/Help.svelte')),
  [METHODS]: screen(async () => ({ default: (await restOfPractise()).Methods })),
  unknown: screen(() => import('../screens/unknown/UnknownAddress.svelte')),
};

/** The functions that fetch them, one a screen. */
export const SCREEN_LOADERS = Object.values(SCREENS);

/** The screen of a route other than Practise: at once when it is here. */
export function screenOf({ screen, id }: LaterRoute): ScreenComponent | Promise<ScreenComponent> {
  if (screen === 'kit' && (id === WHAT_IT_SENDS || id === OFFSET_OF_RIG || id === FIRST_START))
    return SCREENS[id]();
  if ((screen === 'log' && id === KEEPING) || (screen === 'help' && id === METHODS))
    return SCREENS[id]();
  return SCREENS[screen]();
}
