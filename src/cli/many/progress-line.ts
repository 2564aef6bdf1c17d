const BETWEEN_MS = 100;

/**
 * A line on a terminal that says how far a long work has come, and is wiped at its end; nothing elsewhere.
 *
 * @param what is counted: "takes"
 */
export function progressLine(
  what: string,
  stream: NodeJS.WriteStream = process.stderr,
): (done: number, of: number) => void {
  let saidAt = -Infinity;
  return (done, of) => {
    const now = performance.now();
    if (!stream.isTTY || (done < of && now - saidAt < BETWEEN_MS)) return;
    saidAt = now;
    stream.write(`\r\x1b[K${done < of ? `${done} of ${of} ${what} judged` : ''}`);
  };
}
