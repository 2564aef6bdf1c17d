import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { nodeFits } from '../../.scripts/install.mjs';

const { engines } = JSON.parse(readFileSync('package.json', 'utf8')) as {
  engines: { node: string };
};

// Meaning of ^ and >= : https://docs.npmjs.com/cli/v11/using-npm/package-spec and the semver
// package's README ("Caret Ranges": ^1.2.3 is >=1.2.3 <2.0.0-0).
describe('nodeFits', () => {
  it.each(['20.19.0', '20.20.2', '22.12.0', '22.20.1', '24.0.0', '25.1.0'])(
    'accepts %s',
    (version) => expect(nodeFits(version, engines.node)).toBe(true),
  );

  it.each(['18.20.4', '20.18.3', '21.7.0', '22.11.0', '23.5.0', '8.0.0'])('refuses %s', (version) =>
    expect(nodeFits(version, engines.node)).toBe(false),
  );
});
