// The engine's public face: everything that needs no browser.

export { askedLevels } from './score/asked-levels';
export { circular, type Circular } from './score/circular';
export { contrastDb, levelDb } from './score/contrast';
export { dynamicsOf, type Dynamics, type DynamicsReport } from './score/dynamics';
export { figuresOf, isAsWritten, isTimed, type Figures } from './score/figures';
export {
  cleanCyclesToPass,
  gate,
  gateOf,
  GATE_THRESHOLD,
  type CycleTally,
  type Gate,
  type GateOptions,
} from './score/gate';
export {
  byLayer,
  byLevel,
  byLimb,
  byPosition,
  byVoice,
  extrasByVoice,
  wrongVoices,
  type Grouped,
  type WrongVoicePair,
} from './score/groups';
export { judge, judgeNote, type Judgement } from './score/judge';
export type { JudgedNote, LevelVerdict } from './score/judged-note';
export { asksLevel, levelVerdict, type AskedLevels } from './score/level-verdict';
export { scoreTake, type TakeScore } from './score/score-take';
export { separation } from './score/separation';
export { MAD_TO_SPREAD, robustSpread, spread } from './score/spread';
export { theilSen } from './score/theil-sen';
export { cleanNotesNeeded, wilson, type Interval } from './score/wilson';
