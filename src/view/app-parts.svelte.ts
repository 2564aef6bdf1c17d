import { Inputs } from '../practice/inputs.svelte';
import { Library } from '../practice/library.svelte';
import { openTake } from '../practice/open-take';
import { PracticeSession } from '../practice/session.svelte';
import type { TakeRun } from '../practice/take-run';
import { createAudioEngine } from '../sound/audio-engine';
import { PracticeDatabase } from '../store/database';
import { kitStore, phraseStore } from '../store/own-text-store';
import { SettingsStore } from '../store/settings-store';
import type { StoreProblem } from '../store/store-problem';
import { TakeStore } from '../store/take-store';
import type { AppParts } from './app-context';
import { TakeLog } from './screens/log/take-log.svelte';
import { CurrentRoute } from './shell/current-route.svelte';
import { ThemeChoice } from './shell/theme-choice.svelte';

/** The simulated player is handed its notes this often, ms; they are handed over a second ahead. */
const HAND_OVER_EVERY_MS = 200;

/** Everything the app works with, made once for the page. */
export function createAppParts(): AppParts {
  let notice = $state.raw<StoreProblem>();
  const database = new PracticeDatabase({ onNotice: (problem) => (notice = problem) });
  const settings = new SettingsStore();
  const store = new TakeStore(database);
  const takes = new TakeLog(store);
  const engine = createAudioEngine();

  let handing: ReturnType<typeof setInterval> | undefined;
  const onRun = (run: TakeRun | undefined) => {
    inputs.follow(run);
    clearInterval(handing);
    if (run) handing = setInterval(() => inputs.handOver(run), HAND_OVER_EVERY_MS);
  };
  const session: PracticeSession = new PracticeSession({
    engine,
    takes: {
      async add(take, figures) {
        const added = await store.add(take, figures);
        await takes.refresh();
        return added;
      },
    },
    settings,
    kit: () => inputs.playedKit,
    onRun,
  });
  const inputs: Inputs = new Inputs({
    engine,
    settings,
    kits: kitStore(database),
    receive: (...message) => session.receive(...message),
    meter: () => session.phrase?.meter,
  });
  return {
    session,
    inputs,
    library: new Library(phraseStore(database)),
    takes,
    openTake,
    theme: new ThemeChoice(settings),
    route: new CurrentRoute(),
    storeNotice: {
      get current() {
        return notice;
      },
    },
  };
}

/** Reads what is kept, and takes up the phrase of last time. */
export async function loadAppParts({ session, library, inputs, takes }: AppParts): Promise<void> {
  await Promise.all([library.load(), inputs.load(), takes.refresh()]);
  const entry = library.find(session.phraseId) ?? library.phrases[0];
  if (entry) session.choosePhrase(entry);
}
