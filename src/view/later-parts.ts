import type { ClockMap } from '../clock/audio-clock-map';
import { openTake } from '../live/open-take';
import { Audition } from '../practice/audition.svelte';
import { Capturing } from '../practice/capture/capturing.svelte';
import { Controls } from '../practice/control/controls.svelte';
import { Compositions } from '../practice/compose/compositions.svelte';
import { UnsavedEdits } from '../practice/compose/unsaved-edits';
import { FileOpening } from '../practice/files/file-opening.svelte';
import { FirstStart } from '../practice/first-start/first-start.svelte';
import type { Inputs } from '../practice/inputs/inputs.svelte';
import { Backups, type BackupStores } from '../practice/keeping/backups';
import type { DamagedRecords } from '../practice/damaged-records.svelte';
import { FolderBackup, type PickFolder } from '../practice/keeping/folder-backup.svelte';
import type { Library } from '../practice/library.svelte';
import { MicrophoneCalibration } from '../practice/calibration/microphone-calibration.svelte';
import { PlayedCalibration } from '../practice/calibration/played-calibration.svelte';
import type { Rigs } from '../practice/calibration/rigs.svelte';
import type { PracticeSession } from '../practice/session.svelte';
import { Sheets } from '../practice/sheet/sheets.svelte';
import { SoundWatch } from '../practice/sound-watch';
import { VariationsLeftOff } from '../practice/vary/left-off';
import type { AudioEngine } from '../sound/audio-engine';
import { CaptureStore } from '../store/capture-store';
import type { PracticeDatabase } from '../store/database';
import { availableStorage, type SettingsStore } from '../store/settings-store';
import type { CalibrationParts, LaterParts } from './app-context';
import type { TakeLog } from './screens/log/take-log.svelte';

export { recoverTakes } from '../practice/takes/recover-takes';

/** What the later parts are made of. */
export interface FirstParts {
  readonly engine: AudioEngine;
  readonly clockMap: ClockMap;
  readonly database: PracticeDatabase;
  readonly settings: SettingsStore;
  readonly devices: MediaDevices | undefined;
  readonly session: PracticeSession;
  readonly inputs: Inputs;
  readonly rigs: Rigs;
  readonly isOnPractise: () => boolean;
  readonly library: Library;
  readonly takes: TakeLog;
  readonly damaged: DamagedRecords;
  readonly stores: BackupStores;
}

/** What no first screen needs, made once it is painted. */
export function createLaterParts(
  first: FirstParts,
): LaterParts & Pick<CalibrationParts, 'played' | 'microphone'> {
  const { engine, clockMap, settings, session, inputs, rigs } = first;
  const moving = { engine, clockMap, inputs, rigs };
  const audition = new Audition({ engine, clockMap });
  const unsaved = new UnsavedEdits(settings);
  const captures = new CaptureStore(first.database);
  const backups = new Backups({
    database: first.database,
    storage: availableStorage(),
    stores: first.stores,
    unsaved,
    damaged: first.damaged,
    readAgain: async () => {
      await Promise.all([
        first.library.load(),
        inputs.load(),
        first.takes.refresh(),
        captures.readOrders(),
      ]);
    },
  });
  const compositions = new Compositions(first.library, unsaved);
  return {
    audition,
    capturing: new Capturing({
      ...moving,
      settings,
      plays: captures,
      practised: () => {
        const { phrase, layer, choices } = session;
        return phrase && { phrase, layer, tempoBpm: choices.tempoBpm };
      },
      stopOthers: async () => {
        audition.stop();
        await session.stop();
      },
    }),
    firstStart: new FirstStart({ settings, inputs, rigs }),
    compositions,
    leftOff: new VariationsLeftOff(settings),
    sheets: new Sheets(settings),
    sound: new SoundWatch({ engine, clockMap, devices: first.devices }),
    played: new PlayedCalibration(moving),
    microphone: new MicrophoneCalibration(moving),
    opening: new FileOpening({ library: first.library, compositions, inputs, backups }),
    backups,
    folderBackup: folderBackupOf(backups, first),
    openTake,
    controls: new Controls({ settings, session, inputs, isOnPractise: first.isOnPractise }),
  };
}

/** Backups into a folder, each time a take has come. */
function folderBackupOf(
  backups: Backups,
  { session, takes }: Pick<FirstParts, 'session' | 'takes'>,
): FolderBackup {
  const { showDirectoryPicker } = window as { showDirectoryPicker?: PickFolder };
  const folderBackup = new FolderBackup({
    backups,
    pick: showDirectoryPicker?.bind(window),
    isPlaying: () => session.status !== 'idle',
  });
  void folderBackup.load();
  takes.onAdded(() => folderBackup.later());
  return folderBackup;
}
