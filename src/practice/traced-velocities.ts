import { STROKE } from '../kit/kit-reader';
import type { MessageTrace } from './message-trace';

/** Velocities of a pad's strokes as far as the trace reaches back, double triggers and crosstalk left out. */
export function tracedVelocities(trace: MessageTrace, note: number): number[] {
  const velocities: number[] = [];
  for (let number = trace.first; number < trace.count; number++) {
    const at = trace.place(number);
    if (trace.kind[at] === STROKE && trace.data1[at] === note && trace.setAside[at] === 0)
      velocities.push(trace.data2[at]!);
  }
  return velocities;
}
