import { expect, it } from 'vitest';
import { userEvent } from 'vitest/browser';

// In this order: the second needs what the first leaves behind.
it('leaves the page by keyboard', async () => {
  const last = document.createElement('button');
  document.body.append(last);
  last.focus();
  await userEvent.tab();
  expect(document.hasFocus()).toBe(false);
  last.remove();
});

it('begins the next test with the keyboard on the page, at its top', async () => {
  expect(document.hasFocus()).toBe(true);
  const first = document.createElement('button');
  document.body.prepend(first);
  await userEvent.tab();
  expect(document.activeElement).toBe(first);
  first.remove();
});
