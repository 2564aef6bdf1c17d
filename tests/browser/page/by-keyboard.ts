import type { Page } from 'playwright-core';

/** Farther than any screen has places to stop at. */
const MOST_STEPS = 400;

/** What the element with the focus is called. */
const focusedName = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const element = document.activeElement as HTMLInputElement | null;
    const label = element?.getAttribute('aria-label') ?? element?.labels?.[0]?.textContent;
    return (label ?? element?.textContent ?? '').trim().replace(/\s+/g, ' ');
  });

/** Presses Tab, or Shift+Tab, until the focus is on an element of that name. */
export async function tabTo(page: Page, name: string | RegExp, key = 'Tab'): Promise<void> {
  const passed: string[] = [];
  for (let i = 0; i < MOST_STEPS; i++) {
    await page.keyboard.press(key);
    const found = await focusedName(page);
    if (typeof name === 'string' ? found === name : name.test(found)) return;
    passed.push(found);
  }
  throw new Error(`no ${String(name)} on the way: ${passed.slice(0, 60).join(' | ')}`);
}

/** Writes into the field with the focus in place of what stood there. */
export async function writeOver(page: Page, text: string): Promise<void> {
  await page.keyboard.press('Control+A');
  await page.keyboard.type(text);
}

/** Starts a take, wherever on the page of practice the focus is below the button. */
export async function startByKeyboard(page: Page): Promise<void> {
  await tabTo(page, 'Start', 'Shift+Tab');
  await page.keyboard.press('Enter');
}
