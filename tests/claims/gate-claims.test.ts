import { describe, expect, it } from 'vitest';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../src/phrase/model/phrase';
import { GATE_THRESHOLD } from '../../src/score/gate-options';
import { gateOfTake } from '../../src/score/trials';
import { steadyTempo } from '../../src/time/tempo';
import { libraryPhrases } from '../phrase/library-phrases';
import { longRunCount } from '../run-count';
import { notesOf, notesToPass, passCount } from './gate-claims';

/** The program was not tuned on it. */
const SEED = 60_413;
const PLAYERS = longRunCount(1200, 6);
/** About 4 in 100 of them pass; among fewer, chance alone would make that one in 20. */
const PLAYERS_UNDER = Math.max(600, PLAYERS);

const LAYERS: readonly (readonly [name: string, phrase: Phrase, layer: number])[] =
  libraryPhrases().flatMap(({ name, text }) => {
    const parsed = parsePhrase(text);
    if (!parsed.ok) throw new Error(name);
    return parsed.value.layers.map(
      (layer, i) => [`${name}, ${layer.name}`, parsed.value, i + 1] as const,
    );
  });
const [, phrase] = LAYERS.find(([name]) => name.startsWith('quay-steps'))!;

describe.each([1, 2])('players whose faults come %d in a row on average', (faultsInARow) => {
  const pass = (points: number, layer: number, players: number) =>
    passCount(
      phrase,
      layer,
      { share: GATE_THRESHOLD + points / 100, faultsInARow },
      players,
      SEED + layer,
    );

  it.each([1, 4, 5])(
    '5 points under pass layer %d in ten minutes in one of 20 at most',
    (layer) => {
      const { passed } = pass(-5, layer, PLAYERS_UNDER);
      expect(passed / PLAYERS_UNDER).toBeLessThanOrEqual(0.05);
    },
  );

  it.each([1, 5])(
    '5 points above pass layer %d in ten minutes in nine of ten at least',
    (layer) => {
      expect(pass(5, layer, PLAYERS).passed / PLAYERS).toBeGreaterThanOrEqual(0.9);
    },
  );
});

// As the choice of how sure it has to be says. Most pass so at the usual threshold (`npm run -s claims` tells all of
// them), and of fewer players one in twenty would be told by chance.
it.each([
  [0.2, 1 / 4],
  [0.04, 1 / 20],
  [0.005, 1 / 100],
])(
  'with a chance of %f players 5 points under pass in a share of %f at most',
  (wrongPass, most) => {
    const count = 15 * PLAYERS;
    const player = { share: GATE_THRESHOLD - 0.05, faultsInARow: 2 };
    const { passed } = passCount(phrase, 2, player, count, SEED, { wrongPass });
    expect(passed / count).toBeLessThanOrEqual(most);
  },
);

it.each([
  [1, 1],
  [1, 2],
  [4, 2],
])(
  'players 10 points above pass layer %d, faults %d in a row, within 200 notes in 98 of 100 at least',
  (layer, faultsInARow) => {
    const player = { share: GATE_THRESHOLD + 0.1, faultsInARow };
    // Some 80 notes each.
    const count = 60 * PLAYERS;
    expect(passCount(phrase, layer, player, count, SEED).soon / count).toBeGreaterThanOrEqual(0.98);
  },
);

describe.each(LAYERS)('%s', (_, of, layer) => {
  it('is passed by a player without faults in the cycles that are told', () => {
    const perfect = { share: 1, faultsInARow: 1 };
    const notes = notesToPass(of, layer, perfect, () => 0.5);
    const plan = {
      phrase: of,
      passages: [{ fromBar: 1, layer }],
      tempo: steadyTempo(90),
      windows: {},
    };
    const { cleanCyclesToPass } = gateOfTake(plan, { notes: [], extras: [] });
    expect(cleanCyclesToPass).toBeDefined();
    const asTold = [...notesOf(of, layer, cleanCyclesToPass)].length;
    expect(notes).toBeLessThanOrEqual(asTold);
    expect(notes).toBeGreaterThan([...notesOf(of, layer, cleanCyclesToPass! - 1)].length - 4);
  });

  it('is never passed while its own notes are wrong every time', () => {
    // Swing adds no note and changes none.
    const hasOwn = [...notesOf(of, layer, 20)].some((note) => note.layers.includes(layer));
    const player = { share: 1, faultsInARow: 1, ownShare: 0 };
    expect(notesToPass(of, layer, player, () => 0.5)).toBe(hasOwn ? Infinity : 55);
  });
});
