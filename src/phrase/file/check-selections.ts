import { changePlace, visitSelectors } from './check-places';
import { selectionPeriod } from '../layers/cycle-pattern';
import { rootCycle, type DraftStroke } from '../layers/draft';
import { layOn, type LaidChange } from '../layers/lay-on';
import { isHand, limbName, LIMBS, type Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { phraseError, type PhraseError } from '../model/phrase-error';

/**
 * Notes looked at in one check at most, over all changes and cycles. Chosen, not measured: a second
 * or so of work, far beyond any phrase that is practised.
 */
export const MAX_LOOKS = 5_000_000;

/**
 * What is wrong with what changes select, laid on cycle by cycle until they repeat: a change without
 * a note, an nth that no stroke has, a limb wanted twice, grace notes on a foot.
 */
export function checkSelections(phrase: Phrase): readonly PhraseError[] {
  if (rootCycle(phrase).length === 0) return [phraseError('NO_STROKE', 'grouping')];
  const search = new SelectionSearch(phrase);
  const period = selectionPeriod(phrase, phrase.layers.length);
  const changes = phrase.layers.reduce((sum, layer) => sum + layer.changes.length, 0);
  const mostCycles = Math.max(1, Math.floor(MAX_LOOKS / (phrase.cycle * (changes + 1))));
  for (let cycle = 0; cycle <= Math.min(period, mostCycles); cycle++) {
    layOn(phrase, phrase.layers.length, cycle, search);
    if (search.clashes.length > 0) return search.clashes;
    if (cycle > 0 && search.isSettled) return [];
  }
  if (period > mostCycles) {
    const found = `${period} cycles before its changes select the same again`;
    return [phraseError('TOO_LARGE', 'layers', { found, expected: mostCycles })];
  }
  return search.unmet();
}

class SelectionSearch {
  readonly clashes: PhraseError[] = [];
  /** Places of changes that have selected nothing so far. */
  readonly #empty = new Set<string>();
  /** Wanted counts of strokes by their place, with the most there were. */
  readonly #counts = new Map<string, { wanted: number; most: number; limb: Limb | undefined }>();
  readonly #mayClash: boolean;

  constructor(phrase: Phrase) {
    let mayClash = false;
    phrase.layers.forEach(({ changes }, layerIndex) => {
      changes.forEach((change, changeIndex) => {
        const place = changePlace(layerIndex, changeIndex);
        if (change.kind === 'set' && (change.set.limb ?? change.set.grace)) mayClash = true;
        if (!('where' in change)) return;
        this.#empty.add(place);
        visitSelectors(change.where, `${place}.where`, ({ nth, limb }, at) =>
          nth?.forEach((wanted, i) => {
            this.#counts.set(`${at}.nth[${i}]`, { wanted, most: 0, limb });
          }),
        );
      });
    });
    this.#mayClash = mayClash;
  }

  /** Whether no further cycle can bring anything new. */
  get isSettled(): boolean {
    const isMet = [...this.#counts.values()].every(({ wanted, most }) => wanted <= most);
    return !this.#mayClash && this.#empty.size === 0 && isMet;
  }

  before({ change, layerIndex, changeIndex, strokes }: LaidChange): void {
    if (!('where' in change) || this.#counts.size === 0) return;
    const inCycle = strokes.filter(({ position }) => position > 0);
    visitSelectors(change.where, `${changePlace(layerIndex, changeIndex)}.where`, ({ nth }, at) =>
      nth?.forEach((_, i) => {
        const count = this.#counts.get(`${at}.nth[${i}]`)!;
        for (const limb of count.limb ? [count.limb] : LIMBS)
          count.most = Math.max(count.most, inCycle.filter((s) => s.limb === limb).length);
      }),
    );
  }

  after({ change, layerIndex, changeIndex, strokes, selected }: LaidChange): void {
    const place = changePlace(layerIndex, changeIndex);
    if (selected > 0) this.#empty.delete(place);
    if (this.clashes.length > 0) return;
    if (change.kind === 'pickup' || change.kind === 'add' || change.kind === 'set')
      this.clashes.push(...clashes(strokes, place));
  }

  /** What no cycle brought. */
  unmet(): readonly PhraseError[] {
    const errors: PhraseError[] = [];
    for (const [place, { wanted, most, limb }] of this.#counts)
      if (wanted > most)
        errors.push(
          phraseError('NTH_BEYOND_STROKES', place, {
            found: wanted,
            expected: most === 0 ? 'none' : most,
            limb: limb ? `the ${limbName(limb)}` : 'the busiest limb',
          }),
        );
    for (const place of this.#empty)
      if (!errors.some((error) => error.place.startsWith(`${place}.`)))
        errors.push(phraseError('SELECTS_NOTHING', place));
    return errors;
  }
}

/** Limbs wanted twice in a cycle, and grace notes on a foot, by a change at a place of the file. */
export function clashes(strokes: readonly DraftStroke[], place: string): readonly PhraseError[] {
  const errors: PhraseError[] = [];
  strokes.forEach((stroke, i) => {
    const { limb, position } = stroke;
    for (let j = i + 1; strokes[j]?.position === position; j++)
      if (strokes[j]!.limb === limb) {
        const where = positionText(position);
        errors.push(phraseError('LIMB_TWICE', place, { limb: limbName(limb), where }));
      }
    if (stroke.graces.some((grace) => !isHand(limb) || !isHand(grace.limb)))
      errors.push(phraseError('GRACE_ON_FOOT', place, { where: positionText(position) }));
  });
  return errors;
}

const positionText = (position: number): string =>
  position > 0 ? `position ${position}` : `partial ${-position} before the downbeat`;
