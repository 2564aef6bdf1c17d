import { boxOf, type Box } from './box';

/** Coordinates that each command of a path takes (SVG 1.1, 8.3). */
const TAKES: Readonly<Record<string, number>> = {
  m: 2,
  l: 2,
  h: 1,
  v: 1,
  c: 6,
  s: 4,
  q: 4,
  t: 2,
  z: 0,
};

/**
 * A box around an outline in SVG's path language without arcs. Its curves lie within their control points, so that it
 * is never too small.
 *
 * @throws Error at a command that glyphs do not use.
 * @example outlineBox('M0 -10h20v30z') // => { left: 0, top: -10, right: 20, bottom: 20 }
 */
export function outlineBox(path: string): Box {
  const points: [number, number][] = [];
  let [x, y] = [0, 0];
  let start: [number, number] = [0, 0];
  for (const [, command = '', words = ''] of path.matchAll(/([a-z])([^a-z]*)/gi)) {
    const takes = TAKES[command.toLowerCase()];
    if (takes === undefined)
      throw new Error(`A path with the command ${command} is not understood.`);
    const isRelative = command === command.toLowerCase();
    const numbers = [...words.matchAll(/-?\d*\.?\d+/g)].map(([number]) => Number(number));
    if (takes === 0) [x, y] = start;
    for (let at = 0; takes > 0 && at + takes <= numbers.length; at += takes) {
      const some = numbers.slice(at, at + takes);
      const kind = command.toLowerCase();
      const pairs: [number, number][] =
        kind === 'h'
          ? [[some[0]! + (isRelative ? x : 0), y]]
          : kind === 'v'
            ? [[x, some[0]! + (isRelative ? y : 0)]]
            : Array.from({ length: takes / 2 }, (_, i) => [
                some[2 * i]! + (isRelative ? x : 0),
                some[2 * i + 1]! + (isRelative ? y : 0),
              ]);
      points.push(...pairs);
      [x, y] = pairs.at(-1)!;
      if (kind === 'm' && at === 0) start = [x, y];
    }
  }
  return boxOf(points);
}
