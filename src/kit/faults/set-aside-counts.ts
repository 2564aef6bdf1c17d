import type { Kit } from '../kit';
import type { KitMessage } from '../kit-decoder';
import { CROSSTALK, DOUBLE_TRIGGER, GENUINE } from '../pad-fault';
import { padGroups } from '../pad-groups';
import type { KitFault, PadName } from './kit-fault';
import { countOf } from '../../words/words';

/** Counts double triggers and crosstalk per pad, as the kit's decoder sets them aside. */
export interface SetAsideCounts {
  /** A stroke. */
  add(stroke: KitMessage): void;
  report(name: PadName): KitFault[];
  /** Strokes per note number, faults included. */
  readonly strokes: Uint32Array;
  readonly doubleTriggers: Uint32Array;
  readonly crosstalk: Uint32Array;
}

/** Fewer are an accident of playing. Chosen, not measured. */
const FEWEST = 3;
/** Strokes whose pads are remembered: as many as the setting aside keeps in sight. */
const IN_SIGHT = 4096;
/** Added to the longest double trigger seen, for a setting that holds, ms. Chosen, not measured. */
const MARGIN_MS = 4;

/** @example createSetAsideCounts(GENERAL_MIDI).report(String) // => [] */
export function createSetAsideCounts(kit: Kit): SetAsideCounts {
  const { ofNote, names } = padGroups(kit);
  const lastUs = new Float64Array(names.length).fill(-Infinity);
  const longestUs = new Float64Array(128);
  const padOf = new Uint8Array(IN_SIGHT);
  const whyOf = new Uint8Array(IN_SIGHT);
  /** Number of the first stroke that was counted; those before it are not looked at. */
  let first = -1;
  const strokes = new Uint32Array(128);
  const doubleTriggers = new Uint32Array(128);
  const crosstalk = new Uint32Array(128);

  function count(at: number, why: number): void {
    const note = padOf[at]!;
    if (whyOf[at] === CROSSTALK) crosstalk[note]!--;
    if (why === DOUBLE_TRIGGER) doubleTriggers[note]!++;
    if (why === CROSSTALK) crosstalk[note]!++;
    whyOf[at] = why;
  }

  return {
    strokes,
    doubleTriggers,
    crosstalk,
    add({ timeUs, pad: note, stroke, setAside: why, changedCount, changedStroke, changedTo }) {
      const group = ofNote[note]!;
      if (first < 0) first = stroke;
      strokes[note]!++;
      padOf[stroke % IN_SIGHT] = note;
      whyOf[stroke % IN_SIGHT] = GENUINE;
      count(stroke % IN_SIGHT, why);
      for (let c = 0; c < changedCount; c++)
        if (changedStroke[c]! >= first) count(changedStroke[c]! % IN_SIGHT, changedTo[c]!);
      if (why !== DOUBLE_TRIGGER) {
        lastUs[group] = timeUs;
        return;
      }
      const sinceUs = timeUs - lastUs[group]!;
      if (sinceUs > longestUs[note]!) longestUs[note] = sinceUs;
    },
    report(name) {
      const faults: KitFault[] = [];
      for (let note = 0; note < 128; note++) {
        const doubles = doubleTriggers[note]!;
        if (doubles >= FEWEST) {
          const ms = Math.round(longestUs[note]! / 1000);
          faults.push({
            fault: 'double triggers',
            pad: note,
            count: doubles,
            sentence: `“${name(note)}” sent ${countOf(doubles, 'double trigger')} in ${countOf(strokes[note]!, 'stroke')}, up to ${ms} ms after the stroke itself.`,
            advice: `Raise this pad's retrigger (mask) time on the sound module to about ${ms + MARGIN_MS} ms; if that swallows quick strokes, raise the threshold or tighten the head instead.`,
          });
        }
        const faint = crosstalk[note]!;
        if (faint >= FEWEST)
          faults.push({
            fault: 'crosstalk',
            pad: note,
            count: faint,
            sentence: `“${name(note)}” answered ${countOf(faint, 'stroke')} on other pads, though nobody struck it.`,
            advice:
              'Raise this pad’s crosstalk (rejection) level on the sound module, then its threshold; move it off the stand or rack it shares with the pad that is struck. Striking each pad hard once shows which pairs they are.',
          });
      }
      return faults;
    },
  };
}
