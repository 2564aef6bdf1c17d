import { describe, expect, it } from 'vitest';
import { MIDI_STATES } from '../../src/midi/midi-problems';

describe('sentences about MIDI', () => {
  it.each(Object.entries(MIDI_STATES))(
    '%s says what is so, and what to do unless all is well',
    (kind, { sentence, remedy }) => {
      expect(sentence).toMatch(/^[A-Z{].*\.$/);
      if (kind === 'ready') expect(remedy).toBe('');
      else expect(remedy).toMatch(/^[A-Z].*\.$/);
    },
  );
});
