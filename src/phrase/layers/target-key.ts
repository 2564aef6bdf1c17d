import type { Phrase } from '../model/phrase';
import { straightOr, swingText } from '../model/swing';
import { layerStack } from './layer-stack';

/**
 * Names what is to be played on a layer (1-based), so that two layers of any phrases have the same key where every note of
 * theirs is the same in the same meter: whatever they are called, and by whatever changes they came about, as far as
 * their selections come round within MOST_PARTIALS; beyond that the changes have to be the same, too. Tempo and the layers
 * that notes came from are no part of it.
 *
 * @returns 16 hexadecimal digits, two 32-bit FNV-1a hashes (Fowler, Noll & Vo, draft-eastlake-fnv) of different offsets
 * @throws RangeError when the phrase has no such layer.
 * @example targetKey(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L', layers: [{ name: 'Sticking' }] }).value, 1) === targetKey(checkPhrase({ title: 'Slope', meter: '4/4', tempoBpm: 120, subdivision: 4, grouping: 'R L', layers: [{ name: 'Hands' }] }).value, 1) // => true
 */
export function targetKey(phrase: Phrase, layer: number): string {
  const laid = layerStack(phrase, layer);
  const { subdivision, displace, swing } = laid.grid;
  const key = new Fnv();
  key.add(
    `${phrase.meterText} ${subdivision} ${phrase.cycle} ${displace} ${swingText(straightOr(swing))}`,
  );
  const most = Math.ceil(MOST_PARTIALS / phrase.cycle);
  if (laid.period > most) key.add(changesText(phrase, layer));
  const cycles = Math.min(laid.period, laid.cyclesInReach, most);
  for (let cycle = 0; cycle <= cycles; cycle++) {
    key.add(`|${cycle}`);
    for (const { partial, graceStep, limb, voice, level } of laid.pattern(cycle))
      key.add(`;${partial} ${graceStep} ${limb} ${voice} ${level}`);
  }
  return key.text;
}

/** Laid on in some 20 ms. Chosen, not measured: more than any phrase that is practised takes to come round. */
const MOST_PARTIALS = 16_384;

/** Which changes make a layer (1-based); exact numbers as text. */
const changesText = ({ groupingText, layers }: Phrase, layer: number): string =>
  JSON.stringify(
    [groupingText, layers.slice(0, layer).map(({ changes }) => changes)],
    (_, value) => (typeof value === 'bigint' ? String(value) : (value as unknown)),
  );

const PRIME = 0x01000193;

class Fnv {
  #a = 0x811c9dc5;
  #b = 0xcbf29ce4;

  add(text: string): void {
    for (let i = 0; i < text.length; i++) {
      this.#a = Math.imul(this.#a ^ text.charCodeAt(i), PRIME);
      this.#b = Math.imul(this.#b ^ text.charCodeAt(i), PRIME);
    }
  }

  get text(): string {
    return [this.#a, this.#b].map((hash) => (hash >>> 0).toString(16).padStart(8, '0')).join('');
  }
}
