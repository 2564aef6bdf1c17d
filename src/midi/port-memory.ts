/** What a port is known by beyond a replug: identifiers and numbers at the end of names change. */
export interface PortMemory {
  readonly manufacturer: string;
  readonly name: string;
  /** Place among ports of the same manufacturer and name, and how many there were. */
  readonly place: number;
  readonly of: number;
}

type Named = { readonly manufacturer: string | null; readonly name: string | null };

/**
 * A port's name without what systems add: ALSA's client and port at the end, the counter Windows puts
 * in front of a device that was plugged in elsewhere.
 *
 * @example plainName('2- Harbour kit MIDI 1 20:0') // => 'Harbour kit MIDI 1'
 */
export const plainName = (name: string | null): string =>
  (name ?? '').replace(/^\d+- /, '').replace(/\s*\d+:\d+$/, '');

/** Loops back what other programs send: listed on every Linux, never a kit. */
export const isThroughPort = (port: Named): boolean => /\bmidi through\b/i.test(port.name ?? '');

const same = (a: Named, b: Named): boolean =>
  (a.manufacturer ?? '') === (b.manufacturer ?? '') && plainName(a.name) === plainName(b.name);

/** What to remember of one of the ports. */
export function portMemory<T extends Named>(ports: readonly T[], port: T): PortMemory {
  const alike = ports.filter((other) => same(other, port));
  return {
    manufacturer: port.manufacturer ?? '',
    name: plainName(port.name),
    place: alike.indexOf(port),
    of: alike.length,
  };
}

/** The remembered port; undefined when it is not there, or cannot be told from its like. */
export function recallPort<T extends Named>(
  ports: readonly T[],
  memory: PortMemory,
): T | undefined {
  const alike = ports.filter((port) => same(port, memory));
  if (alike.length === 1) return alike[0];
  return alike.length === memory.of ? alike[memory.place] : undefined;
}
