const USES_SPACE =
  'input, select, textarea, button, summary, a, [contenteditable], [role="button"], [role="slider"]';

/** Whether a key press is the space bar and nothing on the page has a use of its own for it. */
export function wantsSpace(event: KeyboardEvent): boolean {
  if (event.key !== ' ' || event.repeat || event.defaultPrevented) return false;
  if (event.ctrlKey || event.altKey || event.metaKey) return false;
  return !(event.target instanceof Element && event.target.closest(USES_SPACE));
}
