import type { LayerRow } from '../../src/live/layer-rows';
import type { CycleStats, LiveStats } from '../../src/live/live-stats';
import type { GateReport } from '../../src/score/trials';
import type { Figures } from '../../src/score/figures';

export const figures = (some: Partial<Figures> = {}): Figures => ({
  count: 20,
  answered: 20,
  inTime: 18,
  early: 1,
  late: 1,
  missed: 0,
  wrongVoice: 0,
  tooLoud: 1,
  tooSoft: 0,
  asWritten: 0.85,
  timed: 20,
  meanMs: 3.2,
  medianMs: 2.8,
  spreadMs: 9.1,
  robustSpreadMs: 8.2,
  driftMsPerMinute: undefined,
  ...some,
});

export const layerRow = (layer: number, name: string, some: Partial<LayerRow> = {}): LayerRow => ({
  layer,
  name,
  figures: figures(),
  contrastDb: undefined,
  against: undefined,
  ...some,
});

export const cycleStats = (some: Partial<CycleStats> = {}): CycleStats => ({
  fromCycle: 9,
  toCycle: 9,
  figures: figures(),
  dynamics: { contrastDb: 17.83, separation: 0.99, accents: 3, ghosts: 8 },
  ...some,
});

const GATE: GateReport = {
  passed: false,
  threshold: 0.85,
  wrongPass: 0.04,
  asWritten: 0.83,
  lowerBound: 0.71,
  certainty: 0.4,
  notes: 60,
  right: 51,
  extras: 1,
  cycles: 3,
  bound: 'all notes',
  ownLack: undefined,
  cleanCyclesToPass: 2,
};

/** Third layer, after nine cycles. */
export const sampleStats = (some: Partial<LiveStats> = {}): LiveStats => ({
  layer: 3,
  bpm: 96,
  lastCycles: cycleStats(),
  overall: figures({ count: 180, asWritten: 0.81 }),
  layers: [
    layerRow(1, 'Sticking', { figures: figures({ asWritten: 0.97, meanMs: 2, spreadMs: 8 }) }),
    layerRow(2, 'Accents', {
      figures: figures({ asWritten: 0.94, meanMs: -1, spreadMs: 12 }),
      contrastDb: 14.1,
    }),
    layerRow(3, 'Around the kit', {
      figures: figures({ asWritten: 0.81, meanMs: 9, spreadMs: 17 }),
      contrastDb: 17.8,
    }),
  ],
  bars: { from: 11, to: 55 },
  returns: [],
  extras: 2,
  setAside: { doubleTriggers: 1, crosstalk: 2 },
  gate: GATE,
  gateOfRows: GATE,
  isLost: false,
  code: 'spread',
  finding: 'Left hand 9 ms late.',
  advice: 'Play the left hand alone against the click for two cycles.',
  padsWithoutLevels: [],
  wrongVoices: [{ written: 'ride', struck: 'crash', count: 2 }],
  ...some,
});
