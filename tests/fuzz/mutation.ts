import { chance } from '../../src/time/chance';

type Draw = (below: number) => number;

/** Draws whole numbers from 0 on, below what is asked for. */
export const drawFrom = (seed: number): Draw => {
  const { next } = chance(seed);
  return (below) => next() % Math.max(1, below);
};

const pick = <T>(draw: Draw, list: readonly T[]): T => list[draw(list.length)]!;

/** Bytes that lengths, running status, events and meta events are made of. */
const BYTES = [0, 1, 0x7f, 0x80, 0x81, 0x90, 0x99, 0xb9, 0xf0, 0xf7, 0xff, 0x51, 0x58, 0x2f];

/** A file with one to four faults; `other` is one that a piece may come from. */
export function mutatedBytes(file: Uint8Array, other: Uint8Array, draw: Draw): Uint8Array {
  let bytes = [...file];
  for (let faults = 1 + draw(4); faults > 0; faults--) {
    const at = draw(bytes.length);
    const length = 1 + draw(24);
    switch (draw(8)) {
      case 0:
        bytes[at] = (bytes[at] ?? 0) ^ (1 << draw(8));
        break;
      case 1:
        bytes[at] = pick(draw, BYTES);
        break;
      case 2:
        bytes[at] = draw(256);
        break;
      case 3:
        bytes.splice(at, 0, ...Array.from({ length }, () => draw(256)));
        break;
      case 4:
        bytes.splice(at, length);
        break;
      case 5:
        bytes.splice(at, 0, ...bytes.slice(at, at + length));
        break;
      case 6: {
        const from = draw(other.length);
        bytes.splice(at, length, ...other.slice(from, from + length));
        break;
      }
      default:
        // Most files stay whole, so that faults inside are met.
        if (draw(4) === 0) bytes = bytes.slice(0, at);
    }
  }
  return Uint8Array.from(bytes);
}

/**
 * A file with one to six other values among its bytes below 0x80, from a place on: times, keys, velocities, letters, with
 * most of it still a file.
 */
export function mutatedValues(file: Uint8Array, from: number, draw: Draw): Uint8Array {
  const bytes = Uint8Array.from(file);
  for (let faults = 1 + draw(6); faults > 0; faults--) {
    const at = from + draw(bytes.length - from);
    if (bytes[at]! < 0x80) bytes[at] = draw(2) === 0 ? draw(128) : bytes[from + draw(64)]! & 0x7f;
  }
  return bytes;
}

const NUMBERS = [
  0, -1, 1, 2, 0.5, -0.5, 127, 128, 511, 512, 513, 4096, 1e6, 1e9, 1e15, 1e300, -1e300,
];
const TEXTS = [
  '',
  ' ',
  'R',
  'l',
  'llR R+L - K',
  '1',
  '2 1/2',
  '7/3',
  '9:2',
  '4/4',
  '33/8',
  '\u0000',
  '😀',
];
const KEYS = [
  '__proto__',
  'constructor',
  'at',
  'not',
  'any',
  'every',
  'where',
  'set',
  'limb',
  'x',
  'length',
];

function junk(draw: Draw): unknown {
  switch (draw(8)) {
    case 0:
      return null;
    case 1:
      return draw(2) === 0;
    case 2:
      return [];
    case 3:
      return {};
    case 4:
      return pick(draw, TEXTS);
    case 5:
      return Array.from({ length: draw(6) }, () => pick(draw, NUMBERS));
    default:
      return pick(draw, NUMBERS);
  }
}

type Holder = Record<string, unknown>;

function holdersIn(value: unknown, found: Holder[] = []): Holder[] {
  if (typeof value !== 'object' || value === null) return found;
  found.push(value as Holder);
  for (const inside of Object.values(value)) holdersIn(inside, found);
  return found;
}

/** The text of data with one to four faults, and now and then with faults in the text itself. */
export function mutatedJson(data: unknown, draw: Draw): string {
  const root = { data: structuredClone(data) };
  for (let faults = 1 + draw(4); faults > 0; faults--) fault(root, draw);
  const text = JSON.stringify(root.data) ?? '';
  return draw(10) === 0 ? mutatedText(text, draw) : text;
}

function fault(root: object, draw: Draw): void {
  const holders = holdersIn(root);
  const holder = pick(draw, holders);
  const key = pick(draw, Object.keys(holder));
  const value = holder[key];
  const list = Array.isArray(holder) ? (holder as unknown[]) : undefined;
  switch (draw(9)) {
    case 0:
      if (list) list.splice(draw(list.length), 1);
      else if (key !== undefined) delete holder[key];
      break;
    case 1:
      if (list) list.push(...list.slice(0, 40));
      else holder[pick(draw, KEYS)] = junk(draw);
      break;
    case 2:
      if (list) list.reverse();
      break;
    case 3:
      if (key !== undefined) holder[key] = structuredClone(pick(draw, holders));
      break;
    case 4:
      if (key !== undefined) holder[key] = { not: value };
      break;
    case 5:
      if (typeof value === 'string') holder[key] = mutatedText(value, draw);
      break;
    case 6:
      if (typeof value === 'number')
        holder[key] = pick(draw, [value + 1, value - 1, -value, 10 * value]);
      break;
    case 7:
      if (typeof value === 'number') holder[key] = pick(draw, NUMBERS);
      break;
    default:
      if (key !== undefined) holder[key] = junk(draw);
  }
}

function mutatedText(text: string, draw: Draw): string {
  const at = draw(text.length + 1);
  const length = 1 + draw(12);
  switch (draw(5)) {
    case 0:
      return text.slice(0, at);
    case 1:
      return text.slice(0, at) + text.slice(at + length);
    case 2:
      return text.slice(0, at + length) + text.slice(at);
    case 3:
      return text.replace(/\d+/, '1e309');
    default:
      return (
        text.slice(0, at) + pick(draw, ['"', '[', '{', ',', '\\', '-', ...TEXTS]) + text.slice(at)
      );
  }
}
