import { createContext } from 'svelte';
import type { Audition } from '../practice/audition.svelte';
import type { Compositions } from '../practice/compose/compositions.svelte';
import type { Capturing } from '../practice/capture/capturing.svelte';
import type { MicrophoneCalibration } from '../practice/calibration/microphone-calibration.svelte';
import type { PlayedCalibration } from '../practice/calibration/played-calibration.svelte';
import type { Rigs } from '../practice/calibration/rigs.svelte';
import type { Backups } from '../practice/keeping/backups';
import type { FileOpening } from '../practice/files/file-opening.svelte';
import type { FolderBackup } from '../practice/keeping/folder-backup.svelte';
import type { DamagedRecords } from '../practice/damaged-records.svelte';
import type { FirstStart } from '../practice/first-start/first-start.svelte';
import type { Inputs } from '../practice/inputs/inputs.svelte';
import type { Library } from '../practice/library.svelte';
import type { OpenedTake } from '../live/open-take';
import type { Sheets } from '../practice/sheet/sheets.svelte';
import type { VariationsLeftOff } from '../practice/vary/left-off';
import type { SoundWatch } from '../practice/sound-watch';
import type { PracticeSession } from '../practice/session.svelte';
import type { StoreProblem } from '../store/store-problem';
import type { Take } from '../take/take';
import type { TakeLog } from './screens/log/take-log.svelte';
import type { CurrentRoute } from './shell/current-route.svelte';
import type { ThemeChoice } from './shell/theme-choice.svelte';

/** What a class offers, so that a test can offer the same. */
type PublicOf<T> = Pick<T, keyof T>;

export type SessionParts = PublicOf<PracticeSession>;
export type LibraryParts = PublicOf<Library>;
export type CompositionsParts = PublicOf<Compositions>;
export type AuditionParts = PublicOf<Audition>;
export type CapturingParts = PublicOf<Capturing>;
export type InputParts = PublicOf<Inputs>;
export type SoundParts = PublicOf<SoundWatch>;

export type RigParts = PublicOf<Rigs>;
export type PlayedParts = PublicOf<PlayedCalibration>;
export type MicrophoneParts = PublicOf<MicrophoneCalibration>;

/** The rig's offset: what is kept, and the ways to find it, which come with the later parts. */
export interface CalibrationParts {
  readonly rigs: RigParts;
  readonly played: PlayedParts;
  readonly microphone: MicrophoneParts;
}

/** What no take needs. */
export interface LaterParts {
  /** From opening the app to playing on one's own kit. */
  readonly firstStart: PublicOf<FirstStart>;
  /** The phrases being written. */
  readonly compositions: CompositionsParts;
  /** Lets a phrase be heard without practising it. */
  readonly audition: AuditionParts;
  /** Where varying was left off, phrase by phrase. */
  readonly leftOff: PublicOf<VariationsLeftOff>;
  /** Phrases on paper. */
  readonly sheets: PublicOf<Sheets>;
  /** Catches a phrase that is played and has it written down. */
  readonly capturing: CapturingParts;
  /** The sound and the clocks, looked at. */
  readonly sound: SoundParts;
  /** Files and links that are opened, whatever is in them. */
  readonly opening: PublicOf<FileOpening>;
  /** Everything that is kept as one file, and back. */
  readonly backups: PublicOf<Backups>;
  /** The same by itself, into a folder. */
  readonly folderBackup: PublicOf<FolderBackup>;
  /** Judges a take again; undefined when its phrase cannot be read, or it is damaged. */
  readonly openTake: (take: Take) => OpenedTake | undefined;
}

/**
 * Everything the screens work with; App makes it once. What Practise needs is there from the start, the rest, and what is
 * kept on this machine, once `complete` has settled: to ask for it sooner is a fault.
 */
export interface AppParts extends LaterParts {
  /** Whether `complete` has settled. */
  readonly isComplete: boolean;
  /** Fetches the rest and reads what is kept, once; again where that failed. */
  complete(): Promise<void>;
  readonly session: SessionParts;
  readonly library: LibraryParts;
  readonly inputs: InputParts;
  readonly calibration: CalibrationParts;
  readonly takes: TakeLog;
  /** What is kept and cannot be read. */
  readonly damaged: DamagedRecords;
  readonly theme: ThemeChoice;
  readonly route: CurrentRoute;
  /** What is wrong with the store as a whole, if anything. */
  readonly storeNotice: { readonly current: StoreProblem | undefined };
}

export const [getApp, setApp] = createContext<AppParts>();
