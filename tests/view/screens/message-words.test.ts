import { expect, it } from 'vitest';
import {
  meaningWords,
  messageWords,
  UNMAPPED_WORDS,
} from '../../../src/view/screens/diagnostics/message-words';

// Status bytes: MIDI 1.0 Detailed Specification, table I.
it.each([
  [0x80, 'note 38 off'],
  [0x90, 'note 38, velocity 30'],
  [0xa0, 'pressure 30 on note 38'],
  [0xb0, 'controller 38 at 30'],
  [0xc0, 'program 38'],
  [0xd0, 'pressure 38'],
])('says what a message is: %i', (status, words) => {
  expect(messageWords([status, 38, 30])).toBe(words);
  expect(messageWords([status + 9, 38, 30])).toBe(words);
});

it('takes a note-on without velocity for a note-off, and 0 and 64 for no bend', () => {
  expect(messageWords([0x99, 38, 0])).toBe('note 38 off');
  expect(messageWords([0xe0, 0, 64])).toBe('pitch bend 0');
});

it('says what a message was taken for', () => {
  expect(meaningWords({ bytes: [0x99, 38, 90], voice: 'snare', setAside: '' })).toBe('snare');
  expect(meaningWords({ bytes: [0x99, 91, 90], voice: undefined, setAside: '' })).toBe(
    UNMAPPED_WORDS,
  );
  expect(meaningWords({ bytes: [0x99, 91, 0], voice: undefined, setAside: '' })).toBe('');
  expect(meaningWords({ bytes: [0xb9, 4, 63], voice: undefined, setAside: '' })).toBe('');
});
