import { placeInBars, type CaptureInput } from '../../src/capture/place-in-bars';
import type { PlayedStroke } from '../../src/capture/played-stroke';
import { transcribe } from '../../src/capture/transcribe';
import { parseMeter } from '../../src/time/meter';

/** Strokes played to a click or to none, in any order, as capture takes them. */
export const captureInput = (
  strokes: readonly PlayedStroke[],
  { clickBpm, meter = '4/4' }: { clickBpm?: number | undefined; meter?: string } = {},
): CaptureInput => ({
  strokes: strokes.toSorted((a, b) => a.timeUs - b.timeUs),
  clickBpm,
  meter,
  bar1At: 'count-in end',
});

/** What capture writes down before it is taken apart into layers; undefined where it writes down nothing. */
export function transcribed(
  strokes: readonly PlayedStroke[],
  {
    cyclePartials,
    ...played
  }: { clickBpm?: number | undefined; meter?: string; cyclePartials?: number } = {},
) {
  const input = captureInput(strokes, played);
  const meter = parseMeter(input.meter)!;
  const said = cyclePartials === undefined ? {} : { cyclePartials };
  const placement = placeInBars(input, said, meter);
  return placement && transcribe(placement, meter, input.meter);
}
