import { generate } from 'lean-qr';

/** Modules of empty ground round a code (ISO/IEC 18004, 6.3.8: four at least). */
const QUIET_ZONE = 4;

/** A code to be drawn: its dark modules as a path, a unit a module, in a square of that size, quiet zone included. */
export interface CodeDrawing {
  readonly path: string;
  readonly size: number;
}

/** A text as a QR code (ISO/IEC 18004), with as much error correction as its smallest size has room for. */
export function codeDrawing(text: string): CodeDrawing {
  const code = generate(text);
  const rows = Array.from({ length: code.size }, (_, y) => rowPath(code, y));
  return { path: rows.join(''), size: code.size + 2 * QUIET_ZONE };
}

/** The dark stretches of a row, left to right. */
function rowPath(code: ReturnType<typeof generate>, y: number): string {
  let path = '';
  for (let x = 0; x < code.size; x++) {
    const from = x;
    while (x < code.size && code.get(x, y)) x++;
    if (x > from) path += `M${from + QUIET_ZONE} ${y + QUIET_ZONE}h${x - from}v1h${from - x}z`;
  }
  return path;
}
