import { expect, it } from 'vitest';
import { CAUTIONS } from '../../src/coach/cautions';

const text = (code: string) => CAUTIONS.find((caution) => caution.code === code)!.text;

it('gives the NIOSH limits as printed', () => {
  // NIOSH REL 1998, Pub. 98-126 [F]: 85 dBA 8 h, 94 dBA 60 min, 100 dBA 15 min.
  expect(text('hearing')).toMatch(/85 dBA .*8 hours, 94 dBA for one, 100 dBA for 15 minutes/);
});

it('says to stop on pain and leaves the rest to professionals', () => {
  expect(text('pain')).toMatch(/^Stop when something hurts/);
  expect(text('professional')).toMatch(/doctor/);
  for (const { source } of CAUTIONS) expect(source.length).toBeGreaterThan(10);
});
