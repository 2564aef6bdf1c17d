import type { Choices } from './choices';

/**
 * The tempo, bpm, that a layer goes on at where it is practised at another; undefined where none is to come back to:
 * another layer or phrase is chosen, or nobody plays and it is the tempo that is chosen.
 */
export function bpmToComeBackTo(
  {
    tempoToComeBack: back,
    phraseId,
    layer,
    tempoBpm,
  }: Pick<Choices, 'tempoToComeBack' | 'phraseId' | 'layer' | 'tempoBpm'>,
  isIdle: boolean,
): number | undefined {
  if (back?.phraseId !== phraseId || back.layer !== layer) return undefined;
  return isIdle && tempoBpm === back.bpm ? undefined : back.bpm;
}
