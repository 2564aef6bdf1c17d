import { createClockMap } from '../clock/audio-clock-map';
import type { StrokeSink } from '../midi/stroke-source';
import { plainName } from '../midi/port-memory';
import { Audition } from '../practice/audition.svelte';
import { Compositions } from '../practice/compositions';
import { Capturing } from '../practice/capture/capturing.svelte';
import { Inputs } from '../practice/inputs.svelte';
import { recoverTakes } from '../practice/journal-keeper';
import { Library } from '../practice/library.svelte';
import { MicrophoneCalibration } from '../practice/microphone-calibration.svelte';
import { openTake } from '../live/open-take';
import { PlayedCalibration } from '../practice/played-calibration.svelte';
import { Rigs } from '../practice/rigs.svelte';
import { SoundWatch } from '../practice/sound-watch';
import { PracticeSession } from '../practice/session.svelte';
import { VariationsLeftOff } from '../practice/vary/left-off';
import { createAudioEngine } from '../sound/audio-engine';
import { PracticeDatabase } from '../store/database';
import { kitStore, phraseStore } from '../store/own-text-store';
import { CaptureStore } from '../store/capture-store';
import { SettingsStore } from '../store/settings-store';
import type { StoreProblem } from '../store/store-problem';
import { TakeJournal } from '../store/take-journal';
import { TakeStore } from '../store/take-store';
import type { AppParts } from './app-context';
import { TakeLog } from './screens/log/take-log.svelte';
import { CurrentRoute } from './shell/current-route.svelte';
import { ThemeChoice } from './shell/theme-choice.svelte';

/** Chosen for whoever opens the app for the first time: sixteenths in five over four, five layers. */
const FIRST_PHRASE = 'quay-steps';

/** Everything the app works with, made once for the page. `load` reads what is kept. */
export function createAppParts(): { readonly parts: AppParts; readonly load: () => Promise<void> } {
  let notice = $state.raw<StoreProblem>();
  const database = new PracticeDatabase({ onNotice: (problem) => (notice = problem) });
  const settings = new SettingsStore();
  const store = new TakeStore(database);
  const takes = new TakeLog(store);
  const journal = new TakeJournal(database);
  const devices = (navigator.mediaDevices as MediaDevices | undefined) ?? null;
  const engine = createAudioEngine();
  const clockMap = createClockMap();

  const session: PracticeSession = new PracticeSession({
    engine,
    takes: {
      async add(take, figures, id) {
        const added = await store.add(take, figures, id);
        await takes.refresh();
        return added;
      },
    },
    journal,
    settings,
    clockMap,
    kit: () => inputs.playedKit,
    deviceOffsetMs: () => rigs.beginTake(inputs.player),
    onRun: (run) => inputs.follow(run),
    onTick: (run) => {
      inputs.handOver(run);
      rigs.look();
    },
  });
  const inputs: Inputs = new Inputs({
    engine,
    settings,
    kits: kitStore(database),
    receive: (...message) => session.receive(...message),
    meter: () => session.phrase?.meter,
    onMapped: (kit) => session.useKit(kit),
  });
  const rigs: Rigs = new Rigs({
    engine,
    settings,
    devices,
    portName: () =>
      plainName(inputs.ports.find(({ id }) => id === inputs.chosenPort)?.name ?? null),
  });
  const measuring = {
    engine,
    clockMap,
    overhear: (listener: StrokeSink) => inputs.overhear(listener),
    playOnKit: () => inputs.choosePlayer('kit'),
    onTick: () => rigs.look(),
  };
  const calibration = {
    rigs,
    played: new PlayedCalibration({ ...measuring, onFound: (found) => rigs.remember(found) }),
    microphone: new MicrophoneCalibration({ ...measuring, onAllowed: () => rigs.refresh() }),
  };
  const audition = new Audition({ engine, clockMap });
  const capturing = new Capturing({
    engine,
    clockMap,
    settings,
    plays: new CaptureStore(database),
    inputs,
    rigs,
    practised: () => {
      const { phrase, layer, tempoBpm } = session;
      return phrase && { phrase, layer, tempoBpm };
    },
    stopOthers: async () => {
      audition.stop();
      await session.stop();
    },
  });
  const library = new Library(phraseStore(database));
  const compositions = new Compositions(library, settings);
  const load = async () => {
    takes.recovered = await recoverTakes(journal, store);
    await Promise.all([
      library.load().then(() => compositions.recover()),
      inputs.load(),
      takes.refresh(),
      rigs.refresh(),
    ]);
    const entry =
      library.find(session.phraseId) ?? library.find(FIRST_PHRASE) ?? library.phrases[0];
    if (entry) session.choosePhrase(entry);
  };
  const parts: AppParts = {
    session,
    inputs,
    audition,
    capturing,
    leftOff: new VariationsLeftOff(settings),
    sound: new SoundWatch({ engine, clockMap, devices: devices ?? undefined }),
    calibration,
    library,
    compositions,
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
  return { parts, load };
}
