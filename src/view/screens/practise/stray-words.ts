import type { LiveStats } from '../../../practice/live-stats';
import { counted } from '../../figures/number-words';

type Stray = Pick<LiveStats, 'setAside' | 'wrongVoices'>;

/** Wrong voices, and what was put down to the kit: one plain sentence each, none when there is nothing. */
export function strayWords({ setAside, wrongVoices }: Stray): readonly string[] {
  const { doubleTriggers, crosstalk } = setAside;
  const faults = [
    ...(doubleTriggers > 0 ? [counted(doubleTriggers, 'double trigger')] : []),
    ...(crosstalk > 0 ? [counted(crosstalk, 'crosstalk stroke')] : []),
  ];
  return [
    ...wrongVoices.map(
      ({ written, struck, count }) =>
        `Written ${written}, struck ${struck}: ${counted(count, 'time')}.`,
    ),
    ...(faults.length > 0
      ? [`Set aside as the kit's fault and not yours: ${faults.join(' and ')}.`]
      : []),
  ];
}
