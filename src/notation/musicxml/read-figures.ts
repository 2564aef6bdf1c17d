import { childOf, childrenOf, textOf, type XmlElement } from './xml-tree';

/** Figures over each other, with the parts of an upper one added; over 2 it is counted in quarters. */
export function readMeter(time: XmlElement): string {
  const counts = childrenOf(time, 'beats').map(({ text }) =>
    text.split('+').reduce((sum, part) => sum + Number(part.trim() || NaN), 0),
  );
  const units = childrenOf(time, 'beat-type').map(({ text }) => Number(text.trim()));
  const finest = Math.max(...units);
  const count = counts.reduce((sum, one, i) => sum + (one * finest) / (units[i] ?? NaN), 0);
  return finest < 4 ? `${(count * 4) / finest}/4` : `${count}/${finest}`;
}

/** Long to short; undefined where none of eighths is said. */
export function readSwing(swing: XmlElement | undefined, unread: Set<string>): string | undefined {
  if (!swing) return undefined;
  if (childOf(swing, 'straight')) return '1:1';
  if ((textOf(swing, 'swing-type') ?? 'eighth') !== 'eighth') {
    unread.add('a swing of sixteenths');
    return undefined;
  }
  return `${textOf(swing, 'first') ?? ''}:${textOf(swing, 'second') ?? ''}`;
}

const UNITS = ['16th', 'eighth', 'quarter', 'half', 'whole'];

/** Quarters a minute, where it says a number. */
export function readMetronome(metronome: XmlElement | undefined): number | undefined {
  const unit = UNITS.indexOf(textOf(metronome, 'beat-unit') ?? '');
  const perMinute = Number(textOf(metronome, 'per-minute') ?? NaN);
  if (unit < 0 || !(perMinute > 0 && perMinute < Infinity)) return undefined;
  const dots = childrenOf(metronome, 'beat-unit-dot').length;
  return perMinute * 2 ** (unit - 2) * (2 - 2 ** -Math.min(dots, 2));
}
