import { divisors } from '../../time/whole';
import { parseMeter } from '../../time/meter';
import { bad, good, type Result } from '../../time/result';
import { looksBeyondCycle } from '../layers/matches-selector';
import { parseGrouping } from '../check/parse-grouping';
import { checkDraft } from '../check/draft-check';
import type { Change, Phrase } from '../model/phrase';
import { limbName } from '../model/limb';
import type { PhraseDraft } from '../model/phrase-draft';
import { buildLayers, type FreshLayer } from './build-layers';
import { descriptionLength } from './description-length';
import type { Sheet } from './cell';
import { findRoots, textOfSteps, type Root } from './find-roots';
import { patternLines, samePattern } from './same-pattern';
import { targetPattern, type PatternError, type TargetPattern } from './target-pattern';
import { countOf } from '../../words/words';

export interface DecomposeOptions {
  /** The phrase's cycle, partials, an even part of the pattern or all of it; the shortest that does unless given. */
  readonly cycle?: number;
}

/** Strokes that are written to be left out are a detour: the words must be so many times fewer. Chosen, not measured. */
const DETOUR = 2;

interface Proposal {
  readonly draft: PhraseDraft;
  readonly words: number;
}

interface Proven {
  readonly phrase: Phrase;
  readonly words: number;
}

/**
 * Takes a pattern apart: a phrase of few words whose expansion is the pattern, one musical idea a layer,
 * in the order they are taught: sticking, rests, accents, voices, pickup, added strokes, grace notes,
 * dynamics (a pickup comes last where that is shorter, a displacement where nothing else looks at the meter).
 *
 * The search is greedy within a root (accents, then voices, ...), exact within one selection, and
 * what it proposes has been expanded and compared. Errors: a pattern that no phrase has, such as one
 * limb twice at once or a pickup longer than a bar; grace notes that no layer can tell apart.
 *
 * @example decompose({ meter: '4/4', subdivision: 4, cyclePartials: 4, tempoBpm: 90, notes: [0, 1, 2, 3].map((partial) => ({ partial, limb: partial % 2 ? 'L' : 'R', voice: 'snare', level: partial % 2 ? 'ghost' : 'tap', graces: [] })), pickup: [] }, 'Slip').value.layers.map((layer) => layer.name) // => ['Sticking', 'Ghosts']
 */
export function decompose(
  target: TargetPattern,
  title: string,
  { cycle }: DecomposeOptions = {},
): Result<Phrase, PatternError> {
  const checked = checkPattern(target, title);
  if (!checked.ok) return checked;
  const pattern = leastDisplacement(target);
  let best: Proven | undefined;
  for (const root of findRoots(pattern, cycle)) {
    const mostWords = (best?.words ?? Infinity) / (root.rests.length > 0 ? DETOUR : 1);
    if (root.words >= mostWords) continue;
    const proposal = propose(pattern, title, root, mostWords);
    if (proposal && proposal.words < mostWords) best = proven(proposal, pattern) ?? best;
  }
  if (best) return good(best.phrase);
  return bad({
    code: 'PATTERN_BEYOND_LAYERS',
    message:
      'No layers were found that tell all of these notes apart; simplify the grace notes or shorten the pattern.',
  });
}

/** The proposal as a checked phrase, if it is one and has the same notes. */
function proven({ draft, words }: Proposal, pattern: TargetPattern): Proven | undefined {
  const checked = checkDraft(draft);
  if (!checked.ok) return undefined;
  const again = targetPattern(checked.value, checked.value.layers.length);
  return again.ok && samePattern(again.value, pattern)
    ? { phrase: checked.value, words }
    : undefined;
}

function propose(
  pattern: TargetPattern,
  title: string,
  root: Root,
  mostWords: number,
): Proposal | undefined {
  const { meter, subdivision, cyclePartials, displace = 0, notes } = pattern;
  const barPartials = parseMeter(meter)!.beatsPerBar * subdivision;
  const sheet: Sheet = {
    cycle: root.cycle,
    subdivision,
    barPartials,
    displace,
    span: cyclePartials,
  };
  const built = buildLayers(notes, pattern.pickup, root, sheet, mostWords - root.words);
  if (!built) return undefined;
  const { cycle } = root;
  const layers = [{ name: 'Sticking', changes: [] }, ...displaced(built, displace, root)];
  const text = textOfSteps(root.steps);
  const grouping = parseGrouping(text);
  if (!grouping.ok) return undefined;
  const draft: PhraseDraft = {
    title,
    meter,
    tempoBpm: pattern.tempoBpm,
    subdivision,
    grouping: text,
    cycle,
    ...(pattern.swing !== undefined && { swing: pattern.swing }),
    layers,
  };
  const { swing } = draft;
  return { draft, words: descriptionLength({ grouping: grouping.value, cycle, swing, layers }) };
}

/**
 * With the displacement where it belongs: ahead of what looks at the meter, else last. Where the bare root sounds
 * the same displaced, it is no idea of its own and part of the first layer that looks at the meter.
 */
function displaced(
  layers: readonly FreshLayer[],
  displace: number,
  root: Root,
): readonly FreshLayer[] {
  if (displace === 0) return layers;
  const first = layers.findIndex(({ changes }) => changes.some(looksAtMeter));
  const { name: idea, changes = [] } = layers[first] ?? {};
  if (idea !== undefined && displace < 0 && repeatsAfter(root, -displace))
    return layers.with(first, {
      name: idea,
      changes: [{ kind: 'displace', displace }, ...changes],
    });
  const name = `${countOf(Math.abs(displace), 'partial')} ${displace > 0 ? 'later' : 'earlier'}`;
  const layer: FreshLayer = { name, changes: [{ kind: 'displace', displace }] };
  return first >= 0 ? [layer, ...layers] : [...layers, layer];
}

/** Whether a root's strokes are the same again after so many partials. */
function repeatsAfter({ steps, cycle }: Root, partials: number): boolean {
  const stepAt = (partial: number) => textOfSteps([steps[(partial % cycle) % steps.length]!]);
  for (let partial = 0; partial < cycle; partial++)
    if (stepAt(partial) !== stepAt(partial + partials)) return false;
  return true;
}

const looksAtMeter = (change: Change): boolean =>
  change.kind === 'accentEvery' || (change.kind === 'set' && looksBeyondCycle(change.where));

/** A pattern that a phrase could have, or what is wrong with it first. */
function checkPattern(pattern: TargetPattern, title: string): Result<TargetPattern, PatternError> {
  const { meter, tempoBpm, subdivision, swing, cyclePartials, notes, pickup } = pattern;
  const head = checkDraft({
    title,
    meter,
    tempoBpm,
    subdivision,
    grouping: 'R',
    ...(swing !== undefined && { swing }),
    layers: [{ name: 'Sticking', changes: [] }],
  });
  if (!head.ok) return wrong(head.errors[0]!.message);
  if (notes.length === 0)
    return bad({
      code: 'PATTERN_EMPTY',
      message: 'The pattern has no notes, expected at least one; play or write one.',
    });
  if (!Number.isInteger(cyclePartials) || cyclePartials < 1)
    return wrong(
      `Found a pattern of ${cyclePartials} partials, expected a whole number from 1 on; change it.`,
    );
  const taken = new Set<string>();
  const places = [
    ...notes.map(({ partial, limb }) => ({ at: partial, limb })),
    ...pickup.map(({ partialsBefore, limb }) => ({ at: -partialsBefore, limb })),
  ];
  for (const { at, limb } of places) {
    if (!Number.isInteger(at) || at >= cyclePartials)
      return wrong(`Found a note at partial ${at}, expected 0 to ${cyclePartials - 1}; move it.`);
    if (taken.has(`${at} ${limb}`))
      return wrong(
        `The ${limbName(limb)} is asked for twice at partial ${at}, expected once; give one of them to another limb.`,
      );
    taken.add(`${at} ${limb}`);
  }
  return good(pattern);
}

const wrong = (message: string) => bad<PatternError>({ code: 'PATTERN_WRONG', message });

/** The same notes with a start before bar 1 by less than the notes take to repeat. */
function leastDisplacement(pattern: TargetPattern): TargetPattern {
  const { displace = 0, ...rest } = pattern;
  if (displace >= 0) return pattern;
  const least = displace % soundingPeriod(pattern);
  return least === 0 ? rest : { ...rest, displace: least };
}

/** Partials after which all notes are the same again: the whole pattern or an even part of it. */
function soundingPeriod(pattern: TargetPattern): number {
  const { notes, cyclePartials } = pattern;
  const lines = patternLines(pattern, cyclePartials);
  return divisors(cyclePartials).find((partials) => {
    const moved = notes.map((note) => ({
      ...note,
      partial: (note.partial + partials) % cyclePartials,
    }));
    const movedLines = patternLines({ ...pattern, notes: moved }, cyclePartials);
    return [...movedLines].every((line) => lines.has(line));
  })!;
}
