/** For what the player is asked first: it takes the focus from the button that began, and its section stands on top. */
export function asked(node: HTMLElement): void {
  node.focus({ preventScroll: true });
  node.closest('section')?.scrollIntoView({ block: 'start' });
}
