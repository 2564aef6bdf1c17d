import { swingText } from '../../phrase/model/swing';
import type { Score, ScoreBar } from '../score/score';
import { partialValue } from '../written-values';
import { anchorId } from './mei-anchors';
import { xml, xmlText, type Attributes } from '../xml';

/** Texts with one number stand on one line. */
const ROWS = { sticking: 10, count: 20, cycle: 30 } as const;

const rowText = (row: keyof typeof ROWS, under: number, startid: string, text: string): string =>
  xml(
    'dir',
    {
      startid: `#${startid}`,
      vgrp: ROWS[row] + under,
      type: row,
      place: row === 'cycle' ? 'above' : 'below',
    },
    xml('rend', { halign: 'center', fontstyle: 'normal' }, xmlText(text)),
  );

/** Who strikes, a second limb under the first, and the counts. */
export function meiTexts(score: Score, { partial, stickings, counts }: ScoreBar): string {
  return counts
    .map((count, i) => {
      const at = anchorId(score, partial + i);
      const limbs = stickings[i]!.split('+').filter((limb) => limb !== '');
      return (
        limbs.map((limb, under) => rowText('sticking', under, at, limb)).join('') +
        rowText('count', 0, at, count)
      );
    })
    .join('');
}

/** A bracket over each cycle that begins in a bar, with its number. */
export function meiCycles(score: Score, { partial, partials }: ScoreBar): string {
  return score.brackets
    .filter(({ from }) => from >= partial && from < partial + partials)
    .map(({ cycle, from, to }) => {
      const at = anchorId(score, from);
      return (
        xml('bracketSpan', {
          startid: `#${at}`,
          endid: `#${anchorId(score, to - 1)}`,
          func: 'cross-rhythm',
          lform: 'solid',
          lstartsym: 'angledown',
          lendsym: 'angledown',
          place: 'above',
        }) + rowText('cycle', 0, at, cycle === 1 ? 'cycle 1' : String(cycle))
      );
    })
    .join('');
}

/** The tempo, and the swing where there is one, over the first bar. */
export function meiTempo({ meter, tempoBpm, swing }: Score): string {
  const { flags, dotted } = partialValue(meter, 1).beat;
  const counted: Attributes = {
    tstamp: 1,
    place: 'above',
    mm: tempoBpm,
    'mm.unit': 2 ** (flags + 2),
    'mm.dots': dotted ? 1 : undefined,
    'midi.bpm': tempoBpm * meter.quartersPerBeat.valueOf(),
  };
  return (
    xml('tempo', counted) +
    (swing ? xml('dir', { tstamp: 1, place: 'above' }, `Swing ${swingText(swing)}`) : '')
  );
}
