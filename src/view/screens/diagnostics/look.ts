import type { KitFault } from '../../../kit/faults/kit-fault';
import { deliveryOf, padFigures, type PadFigures } from '../../../practice/inputs/pad-figures';
import type { Percentiles } from '../../../practice/inputs/percentiles';
import type { SoundLook } from '../../../practice/sound-watch';
import { tracedMessages, type TracedMessage } from '../../../practice/inputs/traced-messages';
import type { AppParts } from '../../app-context';
import type { FrameWatch } from './frame-watch';

/** Messages shown at once. */
const SHOWN = 18;

/** Everything the page shows, at one moment. */
export interface Look {
  /** Newest first. */
  readonly messages: readonly TracedMessage[];
  /** Messages the figures are made of. */
  readonly count: number;
  readonly pads: readonly PadFigures[];
  /** What the kit does by itself; notes without a pad are among the pads. */
  readonly faults: readonly KitFault[];
  readonly delivery: Percentiles;
  readonly frames: Percentiles;
  /** Messages without a time of their own that could be believed. */
  readonly unstamped: number;
  readonly heard: SoundLook;
}

export function lookAt(
  { inputs, sound }: Pick<AppParts, 'inputs' | 'sound'>,
  frames: FrameWatch,
): Look {
  const { trace } = inputs.monitor;
  return {
    messages: tracedMessages(trace, SHOWN).reverse(),
    count: trace.count - trace.first,
    pads: padFigures(trace, inputs.playedKit),
    faults: inputs.monitor.faults.filter(({ fault }) => fault !== 'unmapped note'),
    delivery: deliveryOf(trace),
    frames: frames.look(),
    unstamped: inputs.port.unstamped,
    heard: sound.look(),
  };
}
