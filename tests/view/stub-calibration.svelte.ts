import type { PlayedToClick, Rig, RigProfile } from '../../src/clock/latency/rig-profile';
import type { DeviceAndHabit, TapEstimate } from '../../src/clock/latency/tap-estimate';
import type { MicrophoneVerdict } from '../../src/practice/calibration/microphone-analysis';
import type { MicrophonePhase } from '../../src/practice/calibration/microphone-calibration.svelte';
import type { PlayedPhase } from '../../src/practice/calibration/played-calibration.svelte';
import type { OffsetMeasurement } from '../../src/practice/calibration/rigs.svelte';
import type {
  CalibrationParts,
  MicrophoneParts,
  PlayedParts,
  RigParts,
} from '../../src/view/app-context';

/** A rig whose state a test sets; what was kept is written down. */
class StubRigs implements RigParts {
  rig = $state.raw<Rig>({ outputLabel: 'Desk speakers', sampleRate: 48_000, port: 'Harbour kit' });
  profile = $state.raw<RigProfile>();
  playedToClick = $state.raw<PlayedToClick>();
  notices = $state.raw<readonly string[]>([]);
  radioAdvice = $state<string>();
  readonly kept: OffsetMeasurement[] = [];

  async refresh() {}
  settle() {}
  look() {}
  beginTake() {
    return 0;
  }
  async keep(measured: OffsetMeasurement) {
    this.kept.push(measured);
    this.profile = { ...this.rig, ...measured, measuredAt: '2026-11-25T10:00:00Z' };
  }
  remember({ deviceAndHabitMs, lowerMs, upperMs }: DeviceAndHabit) {
    const playedAt = '2026-11-25T10:00:00Z';
    this.playedToClick = { ...this.rig, deviceAndHabitMs, lowerMs, upperMs, playedAt };
  }
  forget() {
    this.profile = undefined;
  }
}

class StubPlayed implements PlayedParts {
  phase = $state<PlayedPhase>('idle');
  clicked = $state(0);
  readonly clicks = 80;
  strokes = $state(0);
  pad = $state<number>();
  estimate = $state.raw<TapEstimate>();
  problem = $state<string>();

  async begin() {
    this.phase = 'playing';
  }
  finish() {
    this.phase = 'done';
  }
  stop() {
    this.phase = 'idle';
  }
}

class StubMicrophone implements MicrophoneParts {
  phase = $state<MicrophonePhase>('idle');
  clicked = $state(0);
  readonly clicks = 40;
  strokes = $state(0);
  outcome = $state.raw<MicrophoneVerdict>();
  problem = $state<string>();
  isProcessed = $state(false);

  async begin() {
    this.phase = 'asking';
  }
  stop() {
    this.phase = 'idle';
  }
}

/** The ways to find a rig's offset, in any state a test wants. */
export class StubCalibration implements CalibrationParts {
  readonly rigs = new StubRigs();
  readonly played = new StubPlayed();
  readonly microphone = new StubMicrophone();
}
