import type { Component } from 'svelte';
import type { ChapterId } from '../../../shell/route';
import FirstTenMinutes from './FirstTenMinutes.svelte';
import KitTroubles from './KitTroubles.svelte';
import ReadingTheFigures from './ReadingTheFigures.svelte';
import ReadingTheLane from './ReadingTheLane.svelte';
import TheOffset from './TheOffset.svelte';
import WhatPassingMeans from './WhatPassingMeans.svelte';
import WritingAPhrase from './WritingAPhrase.svelte';

export interface Chapter {
  readonly id: ChapterId;
  readonly title: string;
  /** What it answers, in a line. */
  readonly about: string;
  readonly Words: Component;
  /** What its picture shows, for those who do not see it. */
  readonly pictured: string;
}

/** The guide, in the order in which it is needed. */
export const CHAPTERS: readonly Chapter[] = [
  {
    id: 'first-ten-minutes',
    title: 'The first ten minutes',
    about: 'From the cable to the first layer that is passed.',
    Words: FirstTenMinutes,
    pictured:
      'The screen “Set up your kit” at its step “Pads”. In large letters it asks for one pad of the phrase. Below, each pad of the phrase stands on a staff at its own height: those struck have an upright line of ink beside them and the number of their MIDI note below, the one asked for is shaded and marked “now”, the last is still pale. A bar runs out while it waits.',
  },
  {
    id: 'reading-the-lane',
    title: 'Reading the lane',
    about: 'What each mark beside the notes says.',
    Words: ReadingTheLane,
    pictured:
      'The lane after a take, moved back with the slide under it. Rows for high tom, snare, floor tom and bass drum hold noteheads, each on the pale band of its hit window, and beside each head stands an upright stroke of ink: tall for the accents under their wedges, short for the ghosts in their brackets. One stroke has a flag to the right, late; three ghosts have a bar over their ink, too loud; one note is in a dashed ring, missed. A ruler above counts bar 2, one below it the cycle, the second of four. Under the lane: “Snare ghosts too loud: 9 of 24.”',
  },
  {
    id: 'reading-the-figures',
    title: 'Reading the figures',
    about: 'Which of them to look at, and what to do about it.',
    Words: ReadingTheFigures,
    pictured:
      'The figures of cycle 4 in large numerals: 15 of 20 as written, 1 missed, offset 0 ms, spread 21 ms, contrast 21.1 dB, 1 extra stroke. Below them a table with a row for each layer: its share as written, its offset as a point with its spread as a line to either side of a middle that means “on the note”, and its contrast.',
  },
  {
    id: 'what-passing-means',
    title: 'What passing means',
    about: 'When a layer is done, and why not sooner.',
    Words: WhatPassingMeans,
    pictured:
      'In large letters: “Passed: Sticking.” Under it are buttons for the next layer, Accents, for a faster tempo, 92 bpm, and for once more, and words to press if it is not to count; then the question whether to go to the next layer without a press from now on. The figures of the last cycle follow: 20 of 20 as written.',
  },
  {
    id: 'the-offset',
    title: 'The offset',
    about: 'Why everything may seem late, and how to mend it once.',
    Words: TheOffset,
    pictured:
      'What comes of playing to the click. “Rig and habit together: +14.3 ms”, with the range it lies in and the number of strokes. A drawing shows how many strokes fell how far from the click, which is a dashed line at 0: a hill between 0 and 30 ms late, and below it the number that was found with its range.',
  },
  {
    id: 'kit-troubles',
    title: 'Kit troubles',
    about: 'Nothing arrives, the wrong drum arrives, or too much does.',
    Words: KitTroubles,
    pictured:
      'On the kit screen a frame with the heading “Not on the note map”: note 31, struck 3 times, is not on your kit’s map. It asks what it is, with a list of voices, a button that puts it on the note map, and words to press if it is no pad. Below it begins “Learn my kit”.',
  },
  {
    id: 'writing-a-phrase',
    title: 'Writing a phrase',
    about: 'From a sticking to a phrase in layers, written or played.',
    Words: WritingAPhrase,
    pictured:
      'A phrase being written. Its score line shows a pickup and one bar with the count above and the hands below; the notes of the right hand are framed, as those that are chosen. Below begins the sentence that chose them: every right hand, on any voice, at any level.',
  },
];
