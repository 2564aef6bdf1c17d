import * as v from 'valibot';
import { EDGE_AND_RIM } from '../../kit/built-in-kits';
import { PLAYERS } from '../../take/player';

const share = v.exactOptional(v.pipe(v.number(), v.minValue(0), v.maxValue(1)));
const figure = v.exactOptional(v.number());

export const PlayersShape = v.object({
  player: v.picklist(PLAYERS),
  kitTitle: v.string(),
  faults: v.object({
    biasMs: figure,
    spreadMs: figure,
    driftMsPerMinute: figure,
    loudGhosts: share,
    wrongVoices: share,
    missed: share,
    extra: share,
    velocitySpread: figure,
    lostPlace: v.exactOptional(v.object({ afterCycles: v.number(), slipMs: v.number() })),
  }),
  seed: v.pipe(v.number(), v.integer()),
});
export type PlayerChoices = v.InferOutput<typeof PlayersShape>;

/**
 * The kit plays until somebody says who does. The simulated player's faults are middling, and its seed is one of those
 * whose first takes show them and nothing else.
 */
export const FIRST_PLAYERS: PlayerChoices = {
  player: 'kit',
  kitTitle: EDGE_AND_RIM.title,
  faults: { spreadMs: 14, loudGhosts: 0.15, missed: 0.01, velocitySpread: 6 },
  seed: 11,
};
