import { openTake } from '../../src/live/open-take';
import { Compositions } from '../../src/practice/compose/compositions.svelte';
import { UnsavedEdits } from '../../src/practice/compose/unsaved-edits';
import { FirstStart } from '../../src/practice/first-start/first-start.svelte';
import { Backups } from '../../src/practice/keeping/backups';
import { FileOpening } from '../../src/practice/files/file-opening.svelte';
import { FolderBackup } from '../../src/practice/keeping/folder-backup.svelte';
import { DamagedRecords } from '../../src/practice/damaged-records.svelte';
import { Library } from '../../src/practice/library.svelte';
import type { SheetThread } from '../../src/practice/sheet/sheet-thread';
import { Sheets } from '../../src/practice/sheet/sheets.svelte';
import { VariationsLeftOff } from '../../src/practice/vary/left-off';
import { PracticeDatabase } from '../../src/store/database';
import { kitStore, phraseStore } from '../../src/store/own-text-store';
import { SettingsStore } from '../../src/store/settings-store';
import { TakeStore } from '../../src/store/take-store';
import type { AppParts } from '../../src/view/app-context';
import { TakeLog } from '../../src/view/screens/log/take-log.svelte';
import { CurrentRoute } from '../../src/view/shell/current-route.svelte';
import { ThemeChoice } from '../../src/view/shell/theme-choice.svelte';
import { StubAudition } from './stub-audition.svelte';
import { StubCalibration } from './stub-calibration.svelte';
import { StubCapturing } from './stub-capturing';
import { StubSound } from './stub-sound';
import { StubInputs } from './stub-inputs.svelte';
import { StubSession } from './stub-session.svelte';

export interface StubParts extends AppParts {
  readonly session: StubSession;
  readonly inputs: StubInputs;
  readonly audition: StubAudition;
  readonly capturing: StubCapturing;
  readonly sound: StubSound;
  readonly calibration: StubCalibration;
  readonly store: TakeStore;
}

/** One count on paper, whatever is asked for: the engraver itself is megabytes. */
const ENGRAVED_AT_ONCE: SheetThread = {
  engrave: ({ draft, layer }) =>
    Promise.resolve({
      layer,
      layerName: draft.layers[layer - 1]!.name,
      lines: [
        {
          width: 18_000,
          height: 2000,
          body: '<text class="beat" x="900" y="1500" font-size="290" stroke="none">1</text>',
        },
      ],
      glyphs: {},
    }),
  end: () => undefined,
};

/** The app's parts with a session and inputs that tests drive; library and log are real, on a store of their own. */
export function stubParts(databaseName: string): StubParts {
  const damaged = new DamagedRecords();
  const database = new PracticeDatabase({
    name: databaseName,
    onDamaged: (record) => damaged.add(record),
  });
  damaged.useDatabase(database);
  const store = new TakeStore(database, () => Promise.resolve(false));
  const session = new StubSession();
  const inputs = new StubInputs();
  const calibration = new StubCalibration();
  const phrases = phraseStore(database);
  const library = new Library(phrases, session);
  const takes = new TakeLog(store);
  const unsaved = new UnsavedEdits(new SettingsStore());
  const backups = new Backups({
    database,
    storage: null,
    stores: { takes: store, phrases, kits: kitStore(database) },
    unsaved,
    damaged,
    readAgain: async () => {
      await Promise.all([library.load(), takes.refresh()]);
    },
  });
  const compositions = new Compositions(library, unsaved);
  session.entry = library.find('quay-steps') ?? library.phrases[0];
  return {
    isComplete: true,
    complete: () => Promise.resolve(),
    session,
    library,
    compositions,
    inputs,
    firstStart: new FirstStart({
      settings: new SettingsStore(null),
      inputs,
      rigs: calibration.rigs,
    }),
    audition: new StubAudition(),
    capturing: new StubCapturing(session, inputs, calibration),
    // Keeps nothing, so that no test goes on where another left off.
    leftOff: new VariationsLeftOff(new SettingsStore(null)),
    sheets: new Sheets(new SettingsStore(null), ENGRAVED_AT_ONCE),
    sound: new StubSound(),
    calibration,
    store,
    takes,
    opening: new FileOpening({ library, compositions, inputs, backups }),
    backups,
    folderBackup: new FolderBackup({ backups, pick: undefined, isPlaying: () => false }),
    damaged,
    openTake,
    theme: new ThemeChoice(new SettingsStore()),
    route: new CurrentRoute(),
    storeNotice: { current: undefined },
  };
}
