import { parseMeter } from '../../time/meter';
import { bad, good, type Result } from '../../time/result';
import { looksBeyondCycle } from '../layers/matches-selector';
import { parseGrouping } from '../file/parse-grouping';
import { checkPhrase } from '../file/parse-phrase';
import type { Change, Layer, Phrase } from '../model/phrase';
import { parseSwing } from '../model/swing';
import { phraseFile } from '../file/write-phrase';
import { buildLayers } from './build-layers';
import { descriptionLength } from './description-length';
import type { Sheet } from './cell';
import { findRoots, groupingText, type Root } from './find-roots';
import { leastDisplacement } from './least-displacement';
import { samePattern } from './same-pattern';
import { checkPattern } from './check-pattern';
import { targetPattern, type PatternError, type TargetPattern } from './target-pattern';
import { countOf } from '../model/words';

export interface DecomposeOptions {
  /** The phrase's cycle is the pattern's, even where a shorter one would do. */
  readonly keepCycle?: boolean;
}

/** Strokes that are written to be left out are a detour: the words must be so many times fewer. Chosen, not measured. */
const DETOUR = 2;

interface Proposal {
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
  { keepCycle = false }: DecomposeOptions = {},
): Result<Phrase, PatternError> {
  const checked = checkPattern(target, title);
  if (!checked.ok) return checked;
  const pattern = leastDisplacement(target);
  let best: Proposal | undefined;
  for (const root of findRoots(pattern, keepCycle ? pattern.cyclePartials : 1)) {
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
function proven(proposal: Proposal, pattern: TargetPattern): Proposal | undefined {
  const checked = checkPhrase(phraseFile(proposal.phrase));
  if (!checked.ok) return undefined;
  const again = targetPattern(checked.value, checked.value.layers.length);
  return again.ok && samePattern(again.value, pattern)
    ? { ...proposal, phrase: checked.value }
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
  const layers = displaced(built, displace, root);
  const text = groupingText(root.steps);
  const grouping = parseGrouping(text);
  if (!grouping.ok) return undefined;
  const swing = pattern.swing === undefined ? undefined : parseSwing(pattern.swing);
  const phrase: Phrase = {
    title,
    meter: parseMeter(meter)!,
    meterText: meter,
    tempoBpm: pattern.tempoBpm,
    subdivision,
    groupingText: text,
    grouping: grouping.value,
    cycle: root.cycle,
    swing,
    layers: [{ name: 'Sticking', changes: [] }, ...layers],
  };
  return { phrase, words: descriptionLength(phrase) };
}

/**
 * With the displacement where it belongs: ahead of what looks at the meter, else last. Where the bare root sounds
 * the same displaced, it is no idea of its own and part of the first layer that looks at the meter.
 */
function displaced(layers: readonly Layer[], displace: number, root: Root): readonly Layer[] {
  if (displace === 0) return layers;
  const first = layers.findIndex(({ changes }) => changes.some(looksAtMeter));
  const { name: idea, changes = [] } = layers[first] ?? {};
  if (idea !== undefined && displace < 0 && repeatsAfter(root, -displace))
    return layers.with(first, {
      name: idea,
      changes: [{ kind: 'displace', displace }, ...changes],
    });
  const name = `${countOf(Math.abs(displace), 'partial')} ${displace > 0 ? 'later' : 'earlier'}`;
  const layer: Layer = { name, changes: [{ kind: 'displace', displace }] };
  return first >= 0 ? [layer, ...layers] : [...layers, layer];
}

/** Whether a root's strokes are the same again after so many partials. */
function repeatsAfter({ steps, cycle }: Root, partials: number): boolean {
  const stepAt = (partial: number) => groupingText([steps[(partial % cycle) % steps.length]!]);
  for (let partial = 0; partial < cycle; partial++)
    if (stepAt(partial) !== stepAt(partial + partials)) return false;
  return true;
}

const looksAtMeter = (change: Change): boolean =>
  change.kind === 'accentEvery' || (change.kind === 'set' && looksBeyondCycle(change.where));
