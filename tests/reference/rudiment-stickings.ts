/**
 * Name and grouping, right lead first. Stickings: Percussive Arts Society, International Drum Rudiments (40). Names, order
 * and 1 to 11 as in the
 * documentation of the Perl module MIDI::Simple::Drummer::Rudiments; 12 to 26 worked out from its source; 27 to 40 from
 * memory.
 */
export const RUDIMENTS: readonly (readonly [name: string, grouping: string])[] = [
  ['single stroke roll', 'R L R L R L R L'],
  ['double stroke open roll', 'R R L L R R L L'],
  ['triple stroke roll', 'R R R L L L'],
  ['six stroke roll', 'R L L R R L'],
  ['single paradiddle', 'R L R R L R L L'],
  ['double paradiddle', 'R L R L R R L R L R L L'],
  ['triple paradiddle', 'R L R L R L R R L R L R L R L L'],
  ['paradiddle-diddle', 'R L R R L L'],
  ['flam', 'lR rL'],
  ['flam accent', 'lR L R rL R L'],
  ['flam tap', 'lR R rL L'],
  ['flamacue', 'lR L R L lR'],
  ['flam paradiddle', 'lR L R R rL R L L'],
  ['single flammed mill', 'lR R L R rL L R L'],
  ['flam paradiddle-diddle', 'lR L R R L L rL R L L R R'],
  ['pataflafla', 'lR L R rL'],
  ['swiss army triplet', 'lR R L'],
  ['inverted flam tap', 'lR L rL R'],
  ['drag', 'llR rrL'],
  ['single drag tap', 'llR L rrL R'],
  ['double drag tap', 'llR llR L rrL rrL R'],
  ['lesson 25', 'llR L R'],
  ['drag paradiddle 1', 'R llR L R R L rrL R L L'],
  ['drag paradiddle 2', 'R llR llR L R R L rrL rrL R L L'],
  ['single ratamacue', 'llR L R L rrL R L R'],
  ['double ratamacue', 'llR llR L R L'],
  ['triple ratamacue', 'llR llR llR L R L'],
];
