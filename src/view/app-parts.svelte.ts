import { createClockMap } from '../clock/audio-clock-map';
import { within } from '../clock/deadline';
import { DamagedRecords } from '../practice/damaged-records.svelte';
import { Inputs } from '../practice/inputs/inputs.svelte';
import { Library } from '../practice/library.svelte';
import { Rigs } from '../practice/calibration/rigs.svelte';
import { PracticeSession } from '../practice/session.svelte';
import { createAudioEngine } from '../sound/audio-engine';
import { PracticeDatabase } from '../store/database';
import { kitStore, phraseStore } from '../store/own-text-store';
import { SettingsStore } from '../store/settings-store';
import type { StoreProblem } from '../store/store-problem';
import { TakeJournal } from '../store/take-journal';
import { TakeStore } from '../store/take-store';
import type { AppParts } from './app-context';
import type { createLaterParts } from './later-parts';
import { TakeLog } from './screens/log/take-log.svelte';
import { CurrentRoute } from './shell/current-route.svelte';
import { allFetched } from './shell/fetch-the-rest';
import { ThemeChoice } from './shell/theme-choice.svelte';

/** Chosen for whoever opens the app for the first time: sixteenths in five over four, five layers. */
const FIRST_PHRASE = 'quay-steps';

/** What is kept and comes later than this shows when it comes, ms. Chosen: nobody waits longer for a screen. */
const KEPT_WITHIN_MS = 2500;

/** A start waits this long at most for the browser to say whether the kit may be listened to, ms. Chosen: longer than to open a port. */
const ANSWER_WITHIN_MS = 1500;

/** Everything the app works with, made once for the page. */
export function createAppParts(): AppParts {
  let notice = $state.raw<StoreProblem>();
  const damaged = new DamagedRecords();
  const database = new PracticeDatabase({
    onNotice: (problem) => (notice = problem),
    onDamaged: (record) => damaged.add(record),
  });
  damaged.useDatabase(database);
  const settings = new SettingsStore();
  const store = new TakeStore(database);
  const takes = new TakeLog(store);
  const journal = new TakeJournal(database);
  const devices = (navigator.mediaDevices as MediaDevices | undefined) ?? null;
  const engine = createAudioEngine();
  const clockMap = createClockMap();

  const phrases = phraseStore(database);
  const kits = kitStore(database);
  const inputs = new Inputs({ engine, settings, kits });
  const rigs = new Rigs({ engine, settings, devices, portName: () => inputs.port.name });
  const session: PracticeSession = new PracticeSession({
    engine,
    clockMap,
    inputs,
    rigs,
    takes: {
      async add(take, figures, id) {
        const added = await store.add(take, figures, id);
        await takes.refresh();
        return added;
      },
    },
    journal,
    settings,
    ready: async () => {
      await Promise.allSettled([complete(), allFetched()]);
      await within(ANSWER_WITHIN_MS, midiAnswer());
    },
  });
  const library = new Library(phrases, session);
  const choose = (...ids: readonly string[]) => {
    const entry = ids.map((id) => library.find(id)).find((found) => found !== undefined);
    if (entry) session.choosePhrase(entry);
  };
  choose(session.choices.phraseId || FIRST_PHRASE);
  // A phrase of the player's own arrives with the store.
  const ownPhrases = library.load().then(() => {
    if (!session.phrase) choose(session.choices.phraseId, FIRST_PHRASE);
  });

  // Whichever of them comes first: what was struck since the last writing is written down before the page goes.
  const flush = () => {
    session.flush();
    later?.capturing.flush();
  };
  addEventListener('beforeunload', flush);
  addEventListener('pagehide', flush);
  document.addEventListener('visibilitychange', () => document.hidden && flush());

  let askedForMidi: Promise<void> | undefined;
  /** Settles when it is known whether the kit can be listened to. */
  async function midiAnswer(): Promise<void> {
    await askedForMidi;
    const { source } = inputs.port;
    if (source.state.kind !== 'asking') return;
    await new Promise<void>((settle) => {
      const stop = source.subscribe(() => {
        if (source.state.kind === 'asking') return;
        stop();
        settle();
      });
    });
  }

  let later = $state.raw<ReturnType<typeof createLaterParts>>();
  const present = () => {
    if (!later) throw new Error('A screen was shown before its parts were there.');
    return later;
  };
  async function completeNow(): Promise<void> {
    const { createLaterParts, recoverTakes } = await import('./later-parts');
    const made = createLaterParts({
      engine,
      clockMap,
      database,
      settings,
      devices: devices ?? undefined,
      session,
      inputs,
      rigs,
      library,
      takes,
      damaged,
      stores: { takes: store, phrases, kits },
    });
    // A part that cannot be read keeps none of the others away.
    const keptRead = Promise.allSettled([
      recoverTakes({
        database,
        takes: store,
        onDamaged: (record) => damaged.add(record),
      }).then(async (count) => {
        takes.recovered = count;
        await takes.refresh();
      }),
      ownPhrases.then(() => made.compositions.recover()),
      inputs.load(),
      rigs.refresh(),
    ]);
    await within(KEPT_WITHIN_MS, keptRead);
    later = made;
    // Not waited for: the browser may ask the player first.
    askedForMidi = inputs.port.source.enableIfAllowed();
  }
  let completing: Promise<void> | undefined;
  const complete = (): Promise<void> =>
    (completing ??= completeNow().catch((error: unknown) => {
      completing = undefined;
      throw error;
    }));

  return {
    session,
    inputs,
    library,
    takes,
    damaged,
    calibration: {
      rigs,
      get played() {
        return present().played;
      },
      get microphone() {
        return present().microphone;
      },
    },
    get isComplete() {
      return later !== undefined;
    },
    complete,
    get firstStart() {
      return present().firstStart;
    },
    get audition() {
      return present().audition;
    },
    get capturing() {
      return present().capturing;
    },
    get leftOff() {
      return present().leftOff;
    },
    get sheets() {
      return present().sheets;
    },
    get sound() {
      return present().sound;
    },
    get compositions() {
      return present().compositions;
    },
    get opening() {
      return present().opening;
    },
    get backups() {
      return present().backups;
    },
    get folderBackup() {
      return present().folderBackup;
    },
    get openTake() {
      return present().openTake;
    },
    theme: new ThemeChoice(settings),
    route: new CurrentRoute(),
    storeNotice: {
      get current() {
        return notice;
      },
    },
  };
}
