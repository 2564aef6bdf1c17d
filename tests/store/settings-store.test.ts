import * as v from 'valibot';
import { afterEach, describe, expect, it } from 'vitest';
import { SettingsStore } from '../../src/store/settings-store';

const tempo = v.pipe(v.number(), v.minValue(30), v.maxValue(300));
afterEach(() => localStorage.clear());

describe('the last choices', () => {
  it('outlive the page', () => {
    new SettingsStore().write('tempo', 87.5);
    expect(new SettingsStore().read('tempo', tempo, 96)).toBe(87.5);
  });

  it('fall back when missing, damaged or out of range', () => {
    const settings = new SettingsStore();
    expect(settings.read('tempo', tempo, 96)).toBe(96);
    settings.write('tempo', 1000);
    expect(settings.read('tempo', tempo, 96)).toBe(96);
    const key = localStorage.key(0)!;
    localStorage.setItem(key, '{damaged');
    expect(new SettingsStore().read('tempo', tempo, 96)).toBe(96);
  });

  it('hold until the page is closed where nothing can be written', () => {
    const full = {
      getItem: () => null,
      setItem() {
        throw new DOMException('no room', 'QuotaExceededError');
      },
    } as unknown as Storage;
    const settings = new SettingsStore(full);
    settings.write('tempo', 88);
    expect(settings.read('tempo', tempo, 96)).toBe(88);
  });

  it('are those that were written last, in whichever tab', () => {
    const [one, other] = [new SettingsStore(), new SettingsStore()];
    one.write('tempo', 87.5);
    other.write('tempo', 120);
    expect(one.read('tempo', tempo, 96)).toBe(120);
    other.remove('tempo');
    expect(one.read('tempo', tempo, 96)).toBe(96);
  });

  it('are found by the beginning of their names', () => {
    for (const settings of [new SettingsStore(), new SettingsStore(null)]) {
      settings.write('edit of a', 1);
      settings.write('edit of b', 2);
      settings.write('tempo', 88);
      settings.remove('edit of b');
      localStorage.setItem('edit of somebody else', '3');
      expect(settings.names('edit of ')).toEqual(['edit of a']);
    }
  });
});
