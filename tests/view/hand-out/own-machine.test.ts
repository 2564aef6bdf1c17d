import { expect, it } from 'vitest';
import { isOwnMachine } from '../../../src/view/hand-out/own-machine';

it.each([
  ['localhost', true],
  ['drums.localhost', true],
  ['127.0.0.1', true],
  ['127.8.9.10', true],
  ['[::1]', true],
  ['192.168.1.20', false],
  ['localhost.example', false],
  ['harbour.example', false],
])('%s is every machine for itself: %s', (hostname, isOwn) => {
  expect(isOwnMachine(hostname)).toBe(isOwn);
});
