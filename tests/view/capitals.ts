/** Of a screen with square pixels, millimetres: 24 inches of 1920 × 1080 at a page zoom of 100 %, one device pixel a CSS pixel. */
export const MM_A_PIXEL = (24 * 25.4) / Math.hypot(1920, 1080);

/**
 * The least height of a capital at 1.5 m, millimetres: 16 minutes of arc, "the minimum character height" of ISO 9241-3,
 * by the formula of NUREG-0700 rev. 2, 1.3.1-4: 6.283 × distance × minutes / 21600.
 */
export const LEAST_MM_FROM_1500 = (6.283 * 1500 * 16) / 21_600;

const ruler = document.createElement('canvas').getContext('2d')!;

/** How high the face in use draws a capital H, CSS pixels. */
function capitalPx(element: Element): number {
  const { fontStyle, fontWeight, fontSize, fontFamily } = getComputedStyle(element);
  ruler.font = `${fontStyle} ${fontWeight} ${fontSize} ${fontFamily}`;
  return ruler.measureText('H').actualBoundingBoxAscent;
}

function isSeen(element: Element): boolean {
  const { width, height } = element.getBoundingClientRect();
  return width > 1 && height > 1 && element.checkVisibility({ visibilityProperty: true });
}

/** Every seen text in an element, with the height of its capitals on 24 inches, millimetres. */
export async function capitalsIn(
  root: Element,
): Promise<{ readonly text: string; readonly mm: number }[]> {
  await document.fonts.ready;
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  const found = [];
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const text = node.textContent?.trim() ?? '';
    const holder = node.parentElement!;
    if (text !== '' && isSeen(holder)) found.push({ text, mm: capitalPx(holder) * MM_A_PIXEL });
  }
  return found;
}
