import type { Stroke } from '../../kit/stroke';
import { firstFrom } from '../../time/first-from';
import type { Evidence } from '../evidence/evidence';
import { finding, type Finding } from '../finding';
import { besideOf } from './beside';
import { surelyAbove, whereOf } from './where';

/** Share of the strokes from which extra ones are told. Chosen, not measured. */
const SOME = 0.05;
/** A stick that is not held down comes back within this, ms. Chosen, not measured. */
const BOUNCE_MS = { least: 15, most: 130 } as const;

/** Of the extra strokes, the share that has to look like bounces: strokes at random do in a third. Chosen, not measured. */
const MOSTLY = 0.6;

/** Strokes that answer nothing: those that follow a stroke on its pad at once and softer are bounces. */
export function extraStrokes(evidence: Evidence): Finding[] {
  const { notes, extras } = evidence.judgement;
  const bounced = new Set<number>();
  const others: Stroke[] = [];
  for (const extra of extras) {
    const parent = parentOf(evidence, extra);
    if (parent === undefined) others.push(extra);
    else bounced.add(parent);
  }
  const answered = [...notes.keys()].filter((at) => notes[at]!.stroke);
  const areBounces = bounced.size > MOSTLY * extras.length;
  const bounces = whereOf(
    evidence,
    areBounces ? answered : [],
    (at) => bounced.has(at),
    SOME / 2,
  ).filter(({ times, of }) => times > SOME * of);
  const told = bounces.map(({ cause, times, of, notes: at }) =>
    finding(
      'bounces',
      times / (times + notes.length),
      at.map((one) => notes[one]!.due),
      {
        name: cause?.name,
        times,
        of,
      },
    ),
  );
  const rest = told.length > 0 ? others : extras;
  const times = rest.length;
  if (!surelyAbove(SOME / 2, times, times + answered.length) || times <= SOME * notes.length)
    return told;
  const most = [...new Set(rest.map(({ voice }) => voice))].find(
    (voice) => rest.filter((extra) => extra.voice === voice).length > times / 2,
  );
  const facts = { times, mostOn: most, beside: besideOf(evidence, rest) };
  return [...told, finding('extras', times / (times + notes.length), [], facts)];
}

/** The note whose stroke a bounce may have come from. */
function parentOf({ judgement: { notes } }: Evidence, extra: Stroke): number | undefined {
  let parent: number | undefined;
  for (let at = firstFrom(notes, timeOf, extra.timeUs - BOUNCE_REACH_US); at < notes.length; at++) {
    const { stroke, due } = notes[at]!;
    if (due.timeUs > extra.timeUs + BOUNCE_REACH_US) break;
    if (!stroke || stroke.pad !== extra.pad || stroke.voice !== extra.voice) continue;
    const sinceMs = (extra.timeUs - stroke.timeUs) / 1000;
    if (sinceMs < BOUNCE_MS.least || sinceMs > BOUNCE_MS.most) continue;
    if (extra.velocity < stroke.velocity) parent = at;
  }
  return parent;
}

/** Farther from the extra stroke no note can be whose stroke it bounced from: the widest hit window besides. */
const BOUNCE_REACH_US = 700_000;

const timeOf = ({ due }: { readonly due: { readonly timeUs: number } }): number => due.timeUs;
