import {
  boundariesOf,
  clickReturns,
  type ClickReturn,
  type Comparison,
  type Figures,
  figuresOf,
  findings,
  type GateReport,
  type JudgedNote,
  gateOfTake,
  mixedNumber,
  padsWithoutLevels,
  type PlayedSwing,
  playedSwing,
  scoreTake,
} from '../index';
import type { AssessedFile } from './assess-input';

const WHY = ['extra', 'double trigger', 'crosstalk'] as const;

const ms = (us: number): number => us / 1000;
const orNull = <T>(value: T | undefined): T | null => value ?? null;

/** The object that `assess --json` prints; other programs rely on its form. */
export function assessJson(assessed: AssessedFile, since: readonly Comparison[] = []) {
  const { plan, kit, layer, strokes, judgement, slips, followed, trials, window, warnings } =
    assessed;
  const { phrase } = plan;
  const score = scoreTake(judgement);
  const extras = new Set(judgement.extras);
  return {
    phrase: phrase.title,
    layer,
    layerName: phrase.layers[layer - 1]!.name,
    tempoBpm: plan.tempo.changes[0]!.bpm,
    toleranceMs: ms(window.toleranceUs),
    reachMs: ms(window.reachUs),
    kit: kit.title,
    warnings,
    notes: judgement.notes.map(noteJson),
    extras: strokes.strokes.flatMap((stroke, j) => {
      const why = WHY[strokes.setAside[j]!];
      // What gave a command is no stroke of the take.
      if (why === undefined || (why === 'extra' && !extras.has(stroke))) return [];
      return [
        {
          atMs: ms(stroke.timeUs),
          voice: stroke.voice,
          velocity: stroke.velocity,
          why,
        },
      ];
    }),
    unmapped: [...strokes.unmapped].map(([note, count]) => ({ note, count })),
    layers: phrase.layers
      .slice(0, Math.max(layer, ...score.byLayer.keys()))
      .map(({ name }, i) => layerJson(i + 1, name, score.byLayer.get(i + 1) ?? figuresOf([]))),
    dynamics: {
      contrastDb: orNull(score.dynamics.overall.contrastDb),
      separation: orNull(score.dynamics.overall.separation),
    },
    levelsNotJudged: padsWithoutLevels(judgement.notes).map(({ pad, velocity, notes }) => ({
      pad,
      velocity,
      notes,
    })),
    swing: swingJson(playedSwing(plan, judgement)),
    silentBars: clickReturns(plan, judgement.notes).map(returnJson),
    gate: gateJson(gateOfTake(plan, judgement, trials)),
    slips: slips.map(({ fromUs, toUs, partials }) => ({
      fromMs: ms(fromUs),
      toMs: toUs === undefined ? null : ms(toUs),
      partials,
    })),
    followed: followed ? figuresJson(figuresOf(followed.notes)) : null,
    findings: findings(plan, judgement, (pad) => boundariesOf(kit, pad), { slips }).map(
      ({ text, advice }) => `${text} ${advice}`,
    ),
    since: since.map(({ text }) => text),
  };
}

const returnJson = ({ fromBar, toBar, beats, errorMs, chanceMs }: ClickReturn) => ({
  fromBar,
  toBar,
  beats,
  errorMs: orNull(errorMs),
  chanceMs: orNull(chanceMs),
});

const swingJson = (played: PlayedSwing | undefined) => {
  if (!played) return null;
  const { ratio, interval, written, offbeats } = played;
  return { ratio, ...interval, written, offbeats };
};

const gateJson = ({
  passed,
  asWritten,
  lowerBound,
  threshold,
  certainty,
  bound,
  ownLack,
  cleanCyclesToPass,
}: GateReport) => ({
  passed,
  asWritten: orNull(asWritten),
  lowerBound: orNull(lowerBound),
  threshold,
  certainty,
  bound: orNull(bound),
  pickup: orNull(ownLack?.pickup),
  ownNotes: orNull(ownLack?.notes),
  wrongPositions: ownLack?.positions ?? [],
  cleanCyclesToPass: orNull(cleanCyclesToPass),
});

const figuresJson = (figures: Figures) => ({
  notes: figures.count,
  asWritten: orNull(figures.asWritten),
  offsetMeanMs: orNull(figures.meanMs),
  offsetSpreadMs: orNull(figures.spreadMs),
});

const layerJson = (layer: number, name: string, figures: Figures) => ({
  layer,
  name,
  ...figuresJson(figures),
});

const noteJson = ({ due, verdict, stroke, offsetUs, levelVerdict }: JudgedNote) => ({
  bar: due.note.bar,
  beat: mixedNumber(due.note.beat),
  cycle: due.note.cycle,
  position: due.note.position,
  voice: due.note.voice,
  limb: due.note.limb,
  level: due.note.level,
  grace: due.note.graceStep > 0,
  expectedMs: ms(due.timeUs),
  verdict,
  offsetMs: offsetUs === undefined ? null : ms(offsetUs),
  velocity: orNull(stroke?.velocity),
  struck: orNull(stroke?.voice),
  levelVerdict: orNull(levelVerdict),
});
