import { describe, expect, it } from 'vitest';
import { checkPhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { vary } from '../../../src/phrase/vary/vary';
import { VariationsLeftOff, type LeftOff } from '../../../src/practice/vary/left-off';
import { usualSettings } from '../../../src/phrase/vary/twist-settings';
import { SettingsStore } from '../../../src/store/settings-store';

function phraseOf(grouping: string): Phrase {
  const checked = checkPhrase({
    title: 'Slip Rope',
    meter: '7/8',
    tempoBpm: 90,
    subdivision: 2,
    grouping,
    layers: [{ name: 'Sticking' }],
  });
  if (!checked.ok) throw new Error(checked.errors[0]!.message);
  return checked.value;
}

/** What the browser keeps over a reload, as text. */
function storage(): Storage {
  const texts = new Map<string, string>();
  return {
    getItem: (key: string) => texts.get(key) ?? null,
    setItem: (key: string, text: string) => void texts.set(key, text),
  } as Storage;
}

const phrase = phraseOf('lR L K');
const mirrored = vary(phrase, { kind: 'mirror' })!;
const state: LeftOff = {
  bpm: 77.5,
  kind: 'thin out',
  settings: { ...usualSettings(phrase), keep: 2, keepLimb: 'R' },
  steps: [{ ...mirrored, distance: 3.5, difficulty: 21 }],
  seed: 41,
  limits: { limbs: ['R', 'L'], voices: ['snare', 'ride'], mostDistance: 4 },
};

describe('where varying was left off', () => {
  it('is what it was after a reload', () => {
    const kept = storage();
    new VariationsLeftOff(new SettingsStore(kept)).write('slip', phrase, state);
    const after = new VariationsLeftOff(new SettingsStore(kept));
    expect(after.read('slip', phrase)).toEqual(state);
    expect(after.read('other', phrase)).toBeUndefined();
  });

  it('is forgotten when the phrase was written anew', () => {
    const left = new VariationsLeftOff(new SettingsStore(storage()));
    left.write('slip', phrase, state);
    expect(left.read('slip', phraseOf('R L K K'))).toBeUndefined();
    expect(left.read('slip', { ...phrase, tempoBpm: 91 })).toBeUndefined();
  });

  it('is forgotten when what is kept is damaged', () => {
    const kept = storage();
    new VariationsLeftOff(new SettingsStore(kept)).write('slip', phrase, state);
    const key = 'layered-phrases.1.variations left off';
    for (const [from, to] of [
      ['"thin out"', '"hoist"'],
      ['rL R K', 'rL R Q'],
      ['"seed":41', '"seed":"x"'],
    ] as const) {
      const text = kept.getItem(key)!;
      const damaged = storage();
      damaged.setItem(key, text.replaceAll(from, to));
      expect(damaged.getItem(key)).not.toBe(text);
      expect(
        new VariationsLeftOff(new SettingsStore(damaged)).read('slip', phrase),
        from,
      ).toBeUndefined();
    }
  });

  it('is remembered of the twelve phrases varied last', () => {
    const left = new VariationsLeftOff(new SettingsStore(storage()));
    for (let i = 0; i < 13; i++) left.write(`phrase ${i}`, phrase, { ...state, seed: i });
    left.write('phrase 5', phrase, { ...state, seed: 50 });
    expect(left.read('phrase 0', phrase)).toBeUndefined();
    expect(left.read('phrase 1', phrase)?.seed).toBe(1);
    expect(left.read('phrase 5', phrase)?.seed).toBe(50);
  });
});
