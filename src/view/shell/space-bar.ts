/** Inputs in which nothing is written. */
const PRESSED_INPUTS = [
  'button',
  'checkbox',
  'color',
  'file',
  'image',
  'radio',
  'range',
  'reset',
  'submit',
];
const WRITING = `textarea, input:not(${PRESSED_INPUTS.map((type) => `[type="${type}"]`).join()})`;

/** Whether somebody writes or chooses from a list there, so that keys belong to it. */
export function takesKeys(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLSelectElement) return isOpen(target);
  return target.isContentEditable || target.matches(WRITING);
}

/** Browsers that cannot tell an open list are taken to have it open. */
const isOpen = (select: HTMLSelectElement): boolean =>
  !CSS.supports('selector(select:open)') || select.matches(':open');

/** Whether a key press is the space bar, held or not, and is not needed where it is pressed. */
export function isSpaceBar(event: KeyboardEvent): boolean {
  if (event.key !== ' ' || event.defaultPrevented) return false;
  return !event.ctrlKey && !event.altKey && !event.metaKey && !takesKeys(event.target);
}
