/** How wide and high every picture of the guide is shown at most, in CSS pixels; the files have twice as many. */
export const PICTURE_SIZE = { width: 560, height: 400 } as const;
