import type { ClockMap } from '../clock/audio-clock-map';
import type { Kit } from '../kit/kit';
import type { AudioEngine } from '../sound/audio-engine';
import type { SettingsStore } from '../store/settings-store';
import type { TakeJournal } from '../store/take-journal';
import type { TakeStore } from '../store/take-store';
import type { TakeRun } from './take-run';

/** What a practice session works with. */
export interface SessionParts {
  readonly engine: AudioEngine;
  readonly takes: Pick<TakeStore, 'add'>;
  readonly journal: Pick<TakeJournal, 'begin'>;
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  /** Where clicks are placed by. */
  readonly clockMap: ClockMap;
  /** The kit whose notes will come. */
  readonly kit: () => Kit;
  /** The rig's part of every offset for a take that begins, ms; 0 where nothing is told. */
  readonly deviceOffsetMs?: () => number;
  /** Told when a take begins and ends, so that sources that play by themselves can follow. */
  readonly onRun?: (run: TakeRun | undefined) => void;
  /** Told about ten times a second while a take runs. */
  readonly onTick?: (run: TakeRun) => void;
  /** Settles when nothing is left to fetch that a take may need. */
  readonly ready?: () => Promise<void>;
  readonly nowMs?: () => number;
  /** The date and time, ISO 8601. */
  readonly today?: () => string;
}
