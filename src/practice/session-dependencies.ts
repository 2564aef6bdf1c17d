import type { ClockMap } from '../clock/audio-clock-map';
import type { AudioEngine } from '../sound/audio-engine';
import type { SettingsStore } from '../store/settings-store';
import type { TakeJournal } from '../store/take-journal';
import type { TakeStore } from '../store/take-store';
import type { Inputs } from './inputs/inputs.svelte';
import type { Rigs } from './calibration/rigs.svelte';
import type { TakeRun } from './takes/take-run';
import type { TransportDependencies } from './transport';

/** What a practice session works with. */
export interface SessionDependencies extends TransportDependencies {
  readonly engine: AudioEngine;
  readonly clockMap: ClockMap;
  readonly inputs: Pick<Inputs, 'tap' | 'follow' | 'player' | 'playedKit' | 'kitAway'>;
  readonly rigs: Pick<Rigs, 'look' | 'beginTake'>;
  readonly takes: Pick<TakeStore, 'add'>;
  readonly journal: Pick<TakeJournal, 'begin'>;
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  /** Told of each take that begins. */
  readonly onRun?: (run: TakeRun) => void;
  /** Settles when nothing is left to fetch that a take may need. */
  readonly ready?: () => Promise<void>;
  readonly loadTools?: () => Promise<typeof import('./takes/take-tools')>;
  /** The date and time, ISO 8601. */
  readonly today?: () => string;
}
