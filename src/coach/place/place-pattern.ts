import { layerStack } from '../../phrase/layers/layer-stack';
import type { Phrase } from '../../phrase/model/phrase';
import { asksLevel, voiceNumber } from '../../phrase/model/voice';
import { repeatLength } from '../../phrase/model/repeat-length';
import { remainder } from '../../time/whole';

/** Longest pattern in which a place is looked for, partials. Chosen, not measured: eight bars of 32nds in 4/4. */
const MOST_PARTIALS = 256;

/** What sounds together on one partial; voices are bits by their number. */
export interface PlaceSymbol {
  /** No bit is a rest. */
  readonly voices: number;
  /** Those of them whose level is asked for and is an accent, or a ghost. */
  readonly accents: number;
  readonly ghosts: number;
  /** Voices that may sound beside: grace notes of this partial or of the next, which they come before. */
  readonly graces: number;
}

/**
 * A layer's notes as its partials tell them apart by ear, until they come round: voices, and levels where the layer asks
 * for them. Who strikes is no symbol.
 */
export interface PlacePattern {
  readonly symbols: readonly PlaceSymbol[];
  /** An index into `symbols` for each partial. */
  readonly partials: Uint8Array;
}

/**
 * The pattern of a layer (1-based), its first partial that of the first cycle's start. Undefined where it does not come
 * round within 256 partials.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example placePattern(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1)?.partials // => Uint8Array.of(0, 0, 1)
 */
export function placePattern(phrase: Phrase, layer: number): PlacePattern | undefined {
  const stack = layerStack(phrase, layer);
  const length = stack.period * phrase.cycle;
  if (!(length <= MOST_PARTIALS) || stack.period > stack.cyclesInReach) return undefined;
  const sounding = Array.from({ length }, () => ({ voices: 0, accents: 0, ghosts: 0, graces: 0 }));
  for (let cycle = 1; cycle <= stack.period; cycle++)
    for (const { partial, graceStep, voice, level } of stack.pattern(cycle)) {
      const at = remainder((cycle - 1) * phrase.cycle + partial, length);
      const symbol = sounding[at]!;
      const bit = 1 << voiceNumber(voice);
      if (graceStep > 0) {
        symbol.graces |= bit;
        sounding[remainder(at - 1, length)]!.graces |= bit;
        continue;
      }
      symbol.voices |= bit;
      if (asksLevel(voice) && level === 'accent') symbol.accents |= bit;
      if (asksLevel(voice) && level === 'ghost') symbol.ghosts |= bit;
    }
  const names = sounding.map(({ voices, accents, ghosts, graces }) =>
    [voices, accents, ghosts, graces & ~voices].join(),
  );
  const distinct = [...new Set(names)];
  const round = repeatLength(names);
  return {
    symbols: distinct.map((name) => {
      const [voices, accents, ghosts, graces] = name.split(',').map(Number);
      return { voices: voices!, accents: accents!, ghosts: ghosts!, graces: graces! };
    }),
    partials: Uint8Array.from(names.slice(0, length % round === 0 ? round : length), (name) =>
      distinct.indexOf(name),
    ),
  };
}

/**
 * For each shift from 0 up to the pattern's length less one, how many of its partials differ from those of the pattern
 * moved by so many: what there is to tell the two places apart by. 0 is the same place of the pattern.
 *
 * @example informativePartials({ symbols: [{ voices: 1, accents: 0, ghosts: 0, graces: 0 }, { voices: 2, accents: 0, ghosts: 0, graces: 0 }], partials: Uint8Array.of(0, 0, 1) }) // => [0, 2, 2]
 */
export const informativePartials = ({ symbols, partials }: PlacePattern): number[] =>
  Array.from(
    partials,
    (_, shift) =>
      partials.filter((symbol, i) => {
        const other = partials[remainder(i - shift, partials.length)]!;
        return !soundAlike(symbols[symbol]!, symbols[other]!);
      }).length,
  );

const soundAlike = (a: PlaceSymbol, b: PlaceSymbol): boolean =>
  a.voices === b.voices && a.accents === b.accents && a.ghosts === b.ghosts;
