import type { Draws } from './draws';
import type { Subject } from './subject';
import type { TwistRange } from './twist-range';
import type { Twist } from './vary';

/** Twisted once or twice by chance; undefined when the twist does not suit it, or the two were drawn before. */
export function drawVaried(
  original: Subject,
  range: TwistRange,
  draws: Draws,
): Subject | undefined {
  const twist = range.draw(original, draws);
  const once = original.twist(twist);
  if (!once || draws.share() < 0.5 || once.voices.length === 0) return once;
  const next = range.draw(once, draws);
  return next.kind === twist.kind ? once : once.twistAnew(next);
}

/** Twisted once in every way, then twice in every way that was not asked for before, the kinds of twist mixed. */
export function* everyVaried(original: Subject, range: TwistRange): Generator<Subject> {
  const ways: { readonly once: Subject; readonly nexts: readonly Twist[] }[] = [];
  for (const twist of range.all(original)) {
    const once = original.twist(twist);
    if (!once) continue;
    yield once;
    const nexts = once.voices.length > 0 ? range.all(once) : [];
    ways.push({ once, nexts: nexts.filter(({ kind }) => kind !== twist.kind) });
  }
  const most = Math.max(0, ...ways.map(({ nexts }) => nexts.length));
  for (let round = 0; round < most; round++)
    for (const [i, { once, nexts }] of ways.entries()) {
      const next = round < nexts.length ? nexts[(i + round) % nexts.length] : undefined;
      const twice = next && once.twistAnew(next);
      if (twice) yield twice;
    }
}
