import type { JudgedNote } from '../score/judged-note';
import { LIMBS } from '../phrase/model/limb';
import { surelyAbove, type Evidence } from './evidence';
import { wilson } from '../score/wilson';
import { finding, type Finding } from './finding';
import { spotsOf, type Spot } from './positions';

/** Share of missed notes from which the whole is told. Chosen, not measured. */
const MANY = 0.1;

/**
 * Where notes go missing: the position that its limb misses more surely than its others; then, those
 * notes aside, the limb that misses more surely than the rest; and how many are missed in all, when
 * these explain less than half of them.
 */
export function missedNotes({ judgement: { notes }, score: { overall } }: Evidence): Finding[] {
  const spot = missedSpot(notes);
  const aside = new Set(spot?.notes);
  const remaining = notes.filter((note) => !aside.has(note));
  const told: Finding[] = [];
  if (spot) {
    const { position, limb } = spot;
    const missed = missedIn(spot.notes);
    const facts = { position, limb, missed, of: spot.notes.length };
    told.push(finding('position missed', missed / overall.count, facts));
  }
  const limb = worstOf(
    LIMBS.map((limb) => ({ limb, ...split(remaining, ({ due }) => due.note.limb === limb) })),
  );
  if (limb) {
    const missed = missedIn(limb.notes);
    const facts = { limb: limb.limb, missed, of: limb.notes.length };
    told.push(finding('limb missed', missed / overall.count, facts));
  }
  const { missed, count } = overall;
  const explained = told.reduce((sum, { weight }) => sum + weight, 0);
  if (explained >= missed / count / 2 || !surelyAbove(MANY, missed, count)) return told;
  return [...told, finding('many missed', missed / count, { missed, of: count })];
}

function missedSpot(notes: readonly JudgedNote[]): Spot | undefined {
  return worstOf(
    spotsOf(notes).map((spot) => ({
      ...spot,
      rest: notes.filter(
        ({ due: { note } }) => note.limb === spot.limb && note.position !== spot.position,
      ),
    })),
  );
}

/** The group that misses the largest share, of those whose interval lies wholly above their rest's. */
function worstOf<
  Group extends { readonly notes: readonly JudgedNote[]; readonly rest: readonly JudgedNote[] },
>(groups: readonly Group[]): Group | undefined {
  const share = ({ notes }: Group) => missedIn(notes) / notes.length;
  return groups
    .filter(({ notes, rest }) => {
      const usual = wilson(missedIn(rest), rest.length);
      return usual !== undefined && surelyAbove(usual.upper, missedIn(notes), notes.length);
    })
    .sort((a, b) => share(b) - share(a))[0];
}

function split(notes: readonly JudgedNote[], belongs: (note: JudgedNote) => boolean) {
  return { notes: notes.filter(belongs), rest: notes.filter((note) => !belongs(note)) };
}

const missedIn = (notes: readonly JudgedNote[]): number =>
  notes.filter(({ verdict }) => verdict === 'missed').length;
