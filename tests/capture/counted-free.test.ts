import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { decodeTake } from '../../src/capture/capture-take';
import { capture } from '../../src/capture/capture';
import type { RawMessage } from '../../src/kit/raw-message';

/** Without a click: a stroke every 250 ms, a few ms off, on General MIDI's notes by turns. */
const playedOn = (...notes: number[]) =>
  decodeTake({
    messages: Array.from({ length: 48 }, (_, i): RawMessage => ({
      timeUs: 1_000_000 + i * 250_000 + ((i * 7) % 11) * 1000,
      status: 0x99,
      data1: notes[i % notes.length]!,
      data2: 80,
    })),
    kit: GENERAL_MIDI,
    clickBpm: undefined,
    meter: '4/4',
    fileName: undefined,
    at: '2026-01-01T12:00:00Z',
    id: 'even',
    isCutShort: false,
  });

const written = (notes: readonly number[], tempoBpm?: number) => {
  const found = capture(playedOn(...notes), tempoBpm === undefined ? {} : { tempoBpm });
  if (!found.ok) throw new Error(found.errors[0]!.message);
  const { phrase, findings } = found.value;
  return { phrase, tempo: findings.find(({ about }) => about === 'tempo')! };
};

describe('free playing that is counted as the player says', () => {
  it('tells how else it may be counted', () => {
    const { tempo } = written([38]);
    expect(tempo.sure).toBe(false);
    expect(tempo.sentence).toBe(
      'Not sure of the tempo: 120 beats a minute; or 80, 3 partials a beat.',
    );
  });

  it.each([
    [120, 2],
    [80, 3],
    [60, 4],
  ])('has at %i beats a minute %i partials a beat, three to the cycle, surely', (bpm, partials) => {
    const { phrase, tempo } = written([36, 38, 43], bpm);
    expect([phrase.subdivision, phrase.cycle]).toEqual([partials, 3]);
    expect(tempo).toMatchObject({
      sure: true,
      sentence: `The tempo: ${bpm} beats a minute, as you said.`,
    });
  });
});
