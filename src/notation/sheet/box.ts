/** A rectangle, hundredths of a millimetre; y grows downwards. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The least box around points. @example boxOf([[1, 2], [0, 5]]) // => { left: 0, top: 2, right: 1, bottom: 5 } */
export const boxOf = (points: readonly (readonly [x: number, y: number])[]): Box => ({
  left: Math.min(...points.map(([x]) => x)),
  top: Math.min(...points.map(([, y]) => y)),
  right: Math.max(...points.map(([x]) => x)),
  bottom: Math.max(...points.map(([, y]) => y)),
});

/** The boxes that reach into a stretch. */
export const boxesBetween = (boxes: readonly Box[], from: number, to: number): readonly Box[] =>
  boxes.filter(({ left, right }) => right >= from && left <= to);
