import type { ClockMap } from '../../clock/audio-clock-map';
import type { startPump } from '../../clock/pump';
import type { ScreenWakeLock } from '../../clock/wake-lock';
import type { Phrase } from '../../phrase/model/phrase';
import type { AudioEngine } from '../../sound/audio-engine';
import type { CaptureStore } from '../../store/capture-store';
import type { SettingsStore } from '../../store/settings-store';
import type { Inputs } from '../inputs.svelte';
import type { Rigs } from '../rigs.svelte';

/** What capturing works with. */
export interface CapturingParts {
  readonly engine: AudioEngine;
  readonly clockMap: ClockMap;
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  readonly plays: Pick<CaptureStore, 'put' | 'newest' | 'remove'>;
  readonly inputs: Pick<
    Inputs,
    'overhear' | 'follow' | 'handOver' | 'player' | 'playedKit' | 'midi' | 'file'
  >;
  readonly rigs: Pick<Rigs, 'beginTake' | 'look'>;
  /** What the simulated player plays: the phrase chosen for practice, at its layer and tempo. */
  readonly practised: () => { phrase: Phrase; layer: number; tempoBpm: number } | undefined;
  /** Practising ends where capturing begins. */
  readonly stopOthers: () => Promise<void>;
  readonly nowMs?: () => number;
  readonly pump?: typeof startPump;
  readonly screenOn?: () => Pick<ScreenWakeLock, 'release'>;
  /** ISO 8601. */
  readonly dateTime?: () => string;
  readonly newId?: () => string;
}
