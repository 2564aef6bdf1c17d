/**
 * A picture as the browser gave it: four bytes a dot, row by row from the top.
 *
 * @typedef {{
 *   metadata: { width: number, height: number },
 *   data: Uint8Array | Uint8ClampedArray,
 * }} Dots
 */

/** Hinting puts an edge on the next dot and rounds the widths of letters: ink lies so many dots off. */
const REACH = 2;
/** Of the way from black to white: dots less alike are not of the same ink. */
const UNLIKE = 0.15;
/**
 * So many dots may be without their like. Measured with the two numbers above as they are: on one system none; with every
 * letter hinted in full and in three colours 8 at most; a flam without its slash has 23, all other planted faults 85 and more.
 */
const MOST_ALONE = 14;

/**
 * Compares two pictures by where there is ink: a dot has its like where the other picture is as light within two dots.
 * Systems hint letters differently, which changes hundreds of dots at their edges and hardly one that this counts.
 *
 * @param {Dots} reference
 * @param {Dots} actual
 * @param {{ createDiff: boolean }} options
 * @returns {{ pass: boolean, diff: Uint8Array | null, message: string | null }} with `diff` the reference, pale, and
 *   what has no like in red
 */
export function nearInk(reference, actual, { createDiff }) {
  const { width, height } = reference.metadata;
  const { width: wide, height: high } = actual.metadata;
  if (width !== wide || height !== high) {
    const message = `${wide} by ${high} dots, and the reference has ${width} by ${height}.`;
    return { pass: false, diff: null, message };
  }
  const [before, now] = [lightOf(reference), lightOf(actual)];
  const alone = before.map((light, i) =>
    hasLike(light, now, i, width) && hasLike(now[i] ?? 0, before, i, width) ? 0 : 1,
  );
  const count = alone.reduce((sum, one) => sum + one, 0);
  const pass = count <= MOST_ALONE;
  return {
    pass,
    diff: createDiff ? marked(reference, alone) : null,
    message: pass ? null : `${count} dots have no like, and ${MOST_ALONE} may have none.`,
  };
}

/**
 * How light each dot is together with its neighbours, 0 to 1.
 *
 * @param {Dots} dots
 */
function lightOf({ metadata: { width }, data }) {
  const byte = (/** @type {number} */ at) => data[at] ?? 0;
  const each = new Float32Array(data.length / 4);
  // Weights of red, green and blue: ITU-R BT.601.
  for (let i = 0, at = 0; i < each.length; i++, at += 4)
    each[i] = (0.299 * byte(at) + 0.587 * byte(at + 1) + 0.114 * byte(at + 2)) / 255;
  return each.map((_, i) => {
    let sum = 0;
    let dots = 0;
    for (const dot of dotsNear(i, 1, width, each.length)) {
      sum += each[dot] ?? 0;
      dots++;
    }
    return sum / dots;
  });
}

/**
 * @param {number} light
 * @param {Float32Array} others
 * @param {number} at
 * @param {number} width
 */
function hasLike(light, others, at, width) {
  const isLike = (/** @type {number} */ dot) => Math.abs((others[dot] ?? 0) - light) <= UNLIKE;
  // Most dots are ground where the other picture has ground.
  return isLike(at) || dotsNear(at, REACH, width, others.length).some(isLike);
}

/**
 * Every dot of a picture within reach of one.
 *
 * @param {number} at
 * @param {number} reach
 * @param {number} width
 * @param {number} length
 */
function dotsNear(at, reach, width, length) {
  const column = at % width;
  const near = [];
  for (let y = -reach; y <= reach; y++)
    for (let x = -reach; x <= reach; x++) {
      const dot = at + y * width + x;
      if (dot >= 0 && dot < length && column + x >= 0 && column + x < width) near.push(dot);
    }
  return near;
}

/**
 * @param {Dots} reference
 * @param {Float32Array} alone
 */
function marked({ data }, alone) {
  const diff = Uint8Array.from(data, (byte) => 192 + byte / 4);
  alone.forEach((one, i) => {
    if (one > 0) diff.set([255, 0, 0, 255], 4 * i);
  });
  return diff;
}
