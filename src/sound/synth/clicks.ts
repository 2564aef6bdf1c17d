import type { ClickSound } from '../sound-event';
import { filter } from './filter';
import { decay } from './decay';
import { mix } from './mix';
import { noise } from './noise';
import { partials } from './tone-burst';

/**
 * The clicks, chosen by ear and spectrum rather than measured: bar and beat are one dry knock, an
 * octave and a half apart; the cycle is a small bell, so that it is told from both at once.
 */
export function clickSamples(sound: ClickSound, sampleRate: number): Float32Array {
  const knock = (hertz: number, peak: number) => {
    const length = Math.round(0.06 * sampleRate);
    const tick = filter(noise(length, 3), sampleRate, 'high', 3000);
    return mix(sampleRate, peak, [
      [1, partials(length, sampleRate, [hertz, hertz * 2.76], 0.045)],
      [0.35, decay(tick, sampleRate, 0.008)],
    ]);
  };
  if (sound === 'bar') return knock(2100, 0.9);
  if (sound === 'beat') return knock(780, 0.75);
  const length = Math.round(0.16 * sampleRate);
  return mix(sampleRate, 0.7, [[1, partials(length, sampleRate, [1318, 3321, 5142], 0.15)]]);
}
