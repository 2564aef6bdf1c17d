import type { Voice } from '../../phrase/model/voice';
import type { Kit, LevelBoundaries, Pad } from '../kit';

/** Pads that are built and struck alike: common practice, no source. Rims and side sticks speak otherwise than heads. */
const KINDS: Partial<Record<Voice, string>> = {
  snare: 'drum',
  'high tom': 'drum',
  'mid tom': 'drum',
  'floor tom': 'drum',
  crash: 'cymbal',
  ride: 'cymbal',
  splash: 'cymbal',
  china: 'cymbal',
  'hi-hat closed': 'hi-hat',
  'hi-hat open': 'hi-hat',
};

const kindOf = ({ voice, name }: Pad): string =>
  `${KINDS[voice] ?? voice}${/\b(rim|edge)\b/.exec(name)?.[0] ?? ''}`;

/**
 * The pads that are like the one of a note, which is left out: the heads of the drums, the bows of the cymbals.
 *
 * @example alikePads(EDGE_AND_RIM, 48).map(({ name }) => name) // => ['snare head', 'tom 2 head', 'tom 3 head', 'low floor tom']
 */
export function alikePads({ pads }: Pick<Kit, 'pads'>, note: number): readonly Pad[] {
  const pad = pads.find((one) => one.note === note);
  return pad ? pads.filter((one) => one !== pad && kindOf(one) === kindOf(pad)) : [];
}

/**
 * The kit with levels that were learned on one pad, for the pads like it too: those that have none of their own, and
 * those that had theirs from this pad. What was learned on another pad itself stays.
 *
 * @example withAlikeBoundaries(GENERAL_MIDI, 49, { ghostMax: 40, accentMin: 90 }).pads.filter(({ ghostMax }) => ghostMax === 40).map(({ note }) => note) // => [49, 51, 52, 55, 57, 59]
 */
export function withAlikeBoundaries(kit: Kit, note: number, boundaries: LevelBoundaries): Kit {
  const learned = kit.pads.find((pad) => pad.note === note);
  const alike = new Set(
    alikePads(kit, note).filter((pad) => isUsual(pad) || (learned && hasSame(pad, learned))),
  );
  const pads = kit.pads.map((pad) =>
    pad === learned || alike.has(pad) ? { ...pad, ...boundaries } : pad,
  );
  return { ...kit, pads };
}

const isUsual = ({ ghostMax, accentMin }: Pad): boolean =>
  ghostMax === undefined && accentMin === undefined;

const hasSame = (one: Pad, other: Pad): boolean =>
  one.ghostMax === other.ghostMax && one.accentMin === other.accentMin;
