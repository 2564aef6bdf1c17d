import * as v from 'valibot';
import { parseMeter } from '../../time/meter';
import { bad, good, type Result } from '../../time/result';
import { layerFile } from '../model/draft-file';
import type { Change, Layer, Phrase, Selector } from '../model/phrase';
import type { LayerDraft, PhraseDraft } from '../model/phrase-draft';
import { changePlace, MOST_ERRORS, phraseError, type PhraseError } from '../model/phrase-error';
import {
  headSchema,
  layerSchema,
  MAX_CYCLE,
  MAX_LAYERS,
  MAX_PATTERN,
  MAX_SUBDIVISION,
} from '../model/phrase-file';
import { someSelector } from '../layers/matches-selector';
import { parseSwing } from '../model/swing';
import { LayerStack, shareStack, type LayerWatch } from '../layers/layer-stack';
import { parseGrouping } from './parse-grouping';
import { shapeError } from './shape-error';

/** What is wrong with a part of a draft: its shape, or what stands in it where that is right. */
interface PartErrors {
  readonly shape: readonly PhraseError[];
  readonly inside: readonly PhraseError[];
}

/** What stands ahead of the layers. */
interface Head extends PartErrors {
  /** A phrase that has its layers yet to come; undefined where more than names is wrong. */
  readonly root: Phrase | undefined;
}

/**
 * A phrase from a draft, or what is wrong with it first: the one way from the one to the other.
 *
 * @example checkDraft({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking', changes: [] }] }).value.cycle // => 3
 */
export function checkDraft(draft: PhraseDraft): Result<Phrase, PhraseError> {
  return resultOf(new DraftCheck(draft));
}

/** The same of a draft from a file whose shape was looked at already. */
export function checkShapedDraft(draft: PhraseDraft): Result<Phrase, PhraseError> {
  return resultOf(new DraftCheck(draft, undefined, undefined, true));
}

/**
 * The phrase of a draft that is known to be right: its layers are not laid on to see whether it is.
 *
 * @throws when what stands ahead of the layers is wrong
 */
export function trustDraft(draft: PhraseDraft): Phrase {
  const { phraseIfRight } = new DraftCheck(draft, undefined, undefined, true);
  if (!phraseIfRight) throw new Error(`The phrase "${draft.title}" is not right.`);
  return phraseIfRight;
}

function resultOf({ errors, phrase }: DraftCheck): Result<Phrase, PhraseError> {
  return phrase ? good(phrase) : bad(...errors.slice(0, MOST_ERRORS));
}

/**
 * A draft, what is wrong with it, and the phrase that it is or that its first layers are. It is worked out as it is
 * asked for; of a draft that was changed, from the first changed layer on.
 */
export class DraftCheck {
  readonly draft: PhraseDraft;
  readonly #watch: LayerWatch | undefined;
  readonly #head: Head;
  readonly #layers: readonly PartErrors[];
  /** By layer, as far as they were asked for; none without a root. */
  readonly #stacks: LayerStack[] = [];
  #errors: readonly PhraseError[] | undefined;
  #last: DraftCheck | undefined;

  /** @param watch told when a layer is laid on a cycle, also of drafts that this one is changed to */
  constructor(draft: PhraseDraft, before?: DraftCheck, watch?: LayerWatch, isShaped = false) {
    this.draft = draft;
    this.#watch = before ? before.#watch : watch;
    const hasSameHead = before !== undefined && isSameHead(before.draft, draft);
    this.#head = hasSameHead ? before.#head : headOf(draft, isShaped);
    this.#layers = draft.layers.map((layer, i) =>
      before?.draft.layers[i] === layer ? before.#layers[i]! : layerErrors(layer, i, isShaped),
    );
    if (hasSameHead)
      for (const [i, stack] of before.#stacks.entries())
        if (draft.layers[i] === before.draft.layers[i]) this.#stacks.push(stack);
        else break;
  }

  /** The same of another draft; the last one asked for is kept, so that what was tried need not be laid on again. */
  with(draft: PhraseDraft): DraftCheck {
    if (draft === this.draft) return this;
    if (this.#last?.draft !== draft) this.#last = new DraftCheck(draft, this);
    return this.#last;
  }

  get errors(): readonly PhraseError[] {
    return (this.#errors ??= this.#find());
  }

  /** Undefined while something is wrong. */
  get phrase(): Phrase | undefined {
    return this.stack?.phrase;
  }

  /** The phrase that it is unless something is wrong with its layers; undefined where more is wrong than that. */
  get phraseIfRight(): Phrase | undefined {
    return this.#head.root && this.#stack(this.draft.layers.length).phrase;
  }

  /** The phrase with all its layers laid on. */
  get stack(): LayerStack | undefined {
    if (this.errors.length > 0) return undefined;
    const stack = this.#stack(this.draft.layers.length);
    shareStack(stack);
    return stack;
  }

  /**
   * The layers up to one (1-based), that layer laid on even where it is muted: what is seen of it while it is edited.
   * Undefined while those layers are not right; what comes after them does not matter, nor do a title and names.
   */
  upTo(layer: number): LayerStack | undefined {
    const top = this.draft.layers[layer - 1];
    const isWrong = ({ shape, inside }: PartErrors) => inside.length > 0 || shape.some(isNotName);
    if (!top || layer > MAX_LAYERS || !this.#head.root) return undefined;
    if (this.#layers.slice(0, layer).some(isWrong)) return undefined;
    const stack = top.muted
      ? this.#over(layer, { name: top.name, changes: top.changes })
      : this.#stack(layer);
    return stack.check.errors.length === 0 ? stack : undefined;
  }

  #find(): readonly PhraseError[] {
    const parts = [this.#head, ...this.#layers];
    const shape = parts.flatMap((part) => part.shape);
    if (shape.length > 0) return withGrouping(shape, this.draft.grouping);
    const inside = parts.flatMap((part) => part.inside);
    return inside.length > 0 ? inside : this.#stack(this.#layers.length).check.errors;
  }

  #stack(layer: number): LayerStack {
    for (let next = this.#stacks.length + 1; next <= layer; next++)
      this.#stacks.push(this.#over(next, layered(this.draft.layers[next - 1]!)));
    return this.#stacks[layer - 1]!;
  }

  #over(number: number, layer: Layer): LayerStack {
    return number === 1
      ? new LayerStack({ ...this.#head.root!, layers: [layer] }, undefined, this.#watch)
      : this.#stack(number - 1).over(layer);
  }
}

/** A layer that lays its changes on. */
export type UnmutedLayer = Omit<Layer, 'muted'>;

/**
 * A checked phrase with one layer more, or undefined where that is no phrase. The layer's changes are put together from
 * checked ones, so that their shape is right and only their numbers are looked at.
 */
export function withLayer(stack: LayerStack, layer: UnmutedLayer): LayerStack | undefined {
  if (stack.phrase.layers.length >= MAX_LAYERS || !layer.changes.every(isWithinLimits))
    return undefined;
  const more = stack.over(layer);
  return more.check.errors.length === 0 ? more : undefined;
}

/** Whether the numbers that a rewriting can make too large are such as a file can have. */
function isWithinLimits(change: Change): boolean {
  switch (change.kind) {
    case 'set':
      return hasShortRounds(change.where);
    case 'accentEvery':
      return change.accentEvery <= MAX_CYCLE && hasShortRounds(change.where);
    case 'displace':
      return Math.abs(change.displace) < MAX_CYCLE;
    case 'subdivision':
      return change.subdivision >= 1 && change.subdivision <= MAX_SUBDIVISION;
    case 'pickup':
      return change.pickup.every(({ partialsBefore }) => partialsBefore <= MAX_CYCLE);
    case 'add':
      return change.add.length <= MAX_CYCLE;
    case 'swing':
      return parseSwing(change.swing) !== undefined;
  }
}

const hasShortRounds = (where: Selector): boolean =>
  !someSelector(where, ({ every }) => every !== undefined && every.partials > MAX_PATTERN);

/** Names and the number of layers do not keep a layer from being laid on. */
const isNotName = ({ place }: PhraseError): boolean =>
  place !== 'title' && place !== 'layers' && !/^layers\[\d+\]\.name$/.test(place);

const layered = ({ name, muted, changes }: LayerDraft): Layer =>
  muted ? { name, changes: [], muted: changes } : { name, changes };

const HEAD_KEYS = [
  'title',
  'meter',
  'tempoBpm',
  'subdivision',
  'grouping',
  'cycle',
  'swing',
] as const;

const isSameHead = (a: PhraseDraft, b: PhraseDraft): boolean =>
  HEAD_KEYS.every((key) => a[key] === b[key]) && mayBeSo(a) === mayBeSo(b);

/** Whether there are as many layers as there may be. */
const mayBeSo = ({ layers }: PhraseDraft): boolean =>
  layers.length > 0 && layers.length <= MAX_LAYERS;

function headOf(draft: PhraseDraft, isShaped: boolean): Head {
  const { issues = [] } = isShaped ? NO_ISSUES : v.safeParse(headSchema, draft);
  const shape = issues.map((issue) => shapeError(issue));
  if (shape.some(isNotName)) return { shape, inside: [], root: undefined };
  const { title, tempoBpm, subdivision, meter } = draft;
  const grouping = parseGrouping(draft.grouping);
  const swing = draft.swing === undefined ? undefined : parseSwing(draft.swing);
  const inside = [
    ...(grouping.ok ? tooManySteps(grouping.value.length) : grouping.errors),
    ...swingErrors(draft.swing, 'swing'),
  ];
  if (!grouping.ok || inside.length > 0) return { shape, inside, root: undefined };
  const root: Phrase = {
    title,
    meter: parseMeter(meter)!,
    meterText: meter,
    tempoBpm,
    subdivision,
    groupingText: draft.grouping,
    grouping: grouping.value,
    cycle: draft.cycle ?? grouping.value.length,
    swing,
    layers: [],
  };
  return { shape, inside, root };
}

const NO_ISSUES = { issues: undefined };

function layerErrors(layer: LayerDraft, index: number, isShaped = false): PartErrors {
  const { issues } = isShaped ? NO_ISSUES : v.safeParse(layerSchema, layerFile(layer));
  if (issues) {
    const place = `layers[${index}]`;
    return { shape: issues.map((issue) => shapeError(issue, place)), inside: [] };
  }
  const inside = layer.changes.flatMap((change, i) =>
    change.kind === 'swing' ? swingErrors(change.swing, `${changePlace(index, i)}.swing`) : [],
  );
  return { shape: [], inside };
}

const swingErrors = (text: string | undefined, place: string): PhraseError[] =>
  text === undefined || parseSwing(text)
    ? []
    : [phraseError('SWING_RATIO', place, { found: `"${text}"` })];

const tooManySteps = (found: number): PhraseError[] =>
  found > MAX_CYCLE
    ? [phraseError('TOO_MANY', 'grouping', { found, things: 'steps', expected: MAX_CYCLE })]
    : [];

/** What is wrong with the shape, and with a grouping that can be read all the same, in the file's order. */
export function withGrouping(
  errors: readonly PhraseError[],
  text: unknown,
): readonly PhraseError[] {
  const isRead = typeof text === 'string' && !errors.some(({ place }) => place === 'grouping');
  const grouping = isRead ? parseGrouping(text) : undefined;
  if (!grouping || grouping.ok) return errors;
  const after = errors.findIndex(({ place }) => /^(?:cycle|swing|layers)/.test(place));
  return errors.toSpliced(after < 0 ? errors.length : after, 0, ...grouping.errors);
}

/** Whether a change says by itself what it has to; whether it suits a phrase is for that to say. */
export function isRightChange(change: Change): boolean {
  const { shape, inside } = layerErrors({ name: 'one change', changes: [change] }, 0);
  return shape.length + inside.length === 0;
}
