import { resolutionOf } from '../../src/clock/clock-resolution';
import { AUDIO_STATES } from '../../src/sound/audio-state';
import type { SoundLook } from '../../src/practice/sound-watch';
import type { SoundParts } from '../../src/view/app-context';

/** Sound and clocks that look as a test wants them. */
export class StubSound implements SoundParts {
  state: keyof typeof AUDIO_STATES = 'running';
  started = 0;
  residuals: SoundLook['residuals'] = Array.from({ length: 300 }, (_, i) => ({
    performanceMs: 1000 + 100 * i,
    residualMs: ((i * 37) % 41) / 10 - 2,
  }));

  look(): SoundLook {
    const { name, sentence } = AUDIO_STATES[this.state];
    return {
      sound: { state: name, sentence, outputLatencyMs: 32, baseLatencyMs: 10 },
      clocks: {
        name: 'verified',
        pairs: 300,
        spreadMs: 1.1,
        refused: 2,
        uncertaintyMs: 0.31,
        ratePpm: -87.2,
        resolution: resolutionOf(0.1),
      },
      residuals: this.residuals,
    };
  }
  async startSound() {
    this.started++;
    this.state = 'running';
  }
  async outputName() {
    return 'Boathouse speakers';
  }
}
