/** Marks an object of JSON that stands for something JSON has no word for. */
const MARK = '#';
/** Chosen: records nest a few levels deep; what goes deeper may go round in circles. */
const DEEPEST = 60;

const COLUMNS = [
  Float64Array,
  Float32Array,
  Int8Array,
  Uint8Array,
  Uint8ClampedArray,
  Int16Array,
  Uint16Array,
  Int32Array,
  Uint32Array,
] as const;

/**
 * The text of anything a record is made of: also columns, `undefined`, numbers that JSON cannot say. Equal values have
 * equal texts, since keys come in order. Undefined where it cannot be written.
 *
 * @example structuredJson({ b: NaN, a: new Uint8Array([1]) }) // => '{"a":{"#":"Uint8Array","is":[1]},"b":{"#":"number","is":"NaN"}}'
 */
export function structuredJson(value: unknown): string | undefined {
  try {
    return JSON.stringify(encoded(value, 0));
  } catch {
    return undefined;
  }
}

/** What `structuredJson` wrote. @throws where the text is no such thing. @example fromStructuredJson('[{"#":"number","is":"-0"}]') // => [-0] */
export const fromStructuredJson = (text: string): unknown => decoded(JSON.parse(text), 0);

const marked = (kind: string, is?: unknown) => ({
  [MARK]: kind,
  ...(is === undefined ? {} : { is }),
});

function encoded(value: unknown, depth: number): unknown {
  if (depth > DEEPEST) throw new Error('too deep');
  switch (typeof value) {
    case 'string':
    case 'boolean':
      return value;
    case 'number':
      return isPlain(value) ? value : marked('number', Object.is(value, -0) ? '-0' : `${value}`);
    case 'undefined':
      return marked('undefined');
    case 'bigint':
      return marked('bigint', `${value}`);
    case 'object':
      return value === null ? null : encodedObject(value, depth);
    default:
      throw new Error(`no text for a ${typeof value}`);
  }
}

const isPlain = (number: number): boolean => Number.isFinite(number) && !Object.is(number, -0);

function encodedObject(value: object, depth: number): unknown {
  if (Array.isArray(value)) return Array.from(value, (one: unknown) => encoded(one, depth + 1));
  if (value instanceof Date) return marked('Date', encoded(value.getTime(), depth + 1));
  const column = COLUMNS.find((Column) => value instanceof Column);
  if (column) {
    const numbers = Array.from(value as unknown as ArrayLike<number>);
    return marked(column.name, numbers.every(isPlain) ? numbers : encoded(numbers, depth));
  }
  if (Object.prototype.toString.call(value) !== '[object Object]')
    throw new Error('no text for such an object');
  const entries = Object.keys(value)
    .sort()
    .map((key) => [key, encoded((value as Record<string, unknown>)[key], depth + 1)] as const);
  return Object.hasOwn(value, MARK) ? marked('object', entries) : Object.fromEntries(entries);
}

function decoded(json: unknown, depth: number): unknown {
  if (depth > 2 * DEEPEST) throw new Error('too deep');
  if (typeof json !== 'object' || json === null) return json;
  if (Array.isArray(json)) return json.map((one) => decoded(one, depth + 1));
  if (Object.hasOwn(json, MARK)) return unmarked(json as Record<string, unknown>, depth);
  return Object.fromEntries(
    Object.entries(json).map(([key, one]) => [key, decoded(one, depth + 1)]),
  );
}

function unmarked({ [MARK]: kind, is }: Record<string, unknown>, depth: number): unknown {
  switch (kind) {
    case 'undefined':
      return undefined;
    case 'number':
      return Number(is);
    case 'bigint':
      return BigInt(is as string);
    case 'Date':
      return new Date(decoded(is, depth + 1) as number);
    case 'object':
      return Object.fromEntries(
        (is as [string, unknown][]).map(([key, one]) => [key, decoded(one, depth + 1)]),
      );
    default: {
      const Column = COLUMNS.find(({ name }) => name === kind);
      if (!Column || !Array.isArray(is)) throw new Error('an unknown mark');
      return Column.from(
        is.every((one) => typeof one === 'number') ? is : (decoded(is, depth) as number[]),
      );
    }
  }
}
