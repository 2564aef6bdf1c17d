// The engine's public face: everything that needs no browser.

export { beats, mixedNumber, parseBeats, type Beats } from './time/beats';
export { parseMeter, type Meter } from './time/meter';
export { bad, good, type Result } from './time/result';
export { steadyTempo, tempoMap, type TempoChange, type TempoMap } from './time/tempo';

export { cycleNotes, expand, pickupNotes, type Span } from './phrase/expand';
export { layerShape, type LayerShape } from './phrase/layer-shape';
export { LEVELS, type Level } from './phrase/level';
export { isHand, limbName, LIMBS, type Limb } from './phrase/limb';
export type { Note } from './phrase/note';
export { parseGrouping } from './phrase/parse-grouping';
export { checkPhrase, parsePhrase } from './phrase/parse-phrase';
export type { Change, Layer, Phrase, Setting, SwingRatio, Where } from './phrase/phrase';
export { type PhraseError, type PhraseErrorCode } from './phrase/phrase-error';
export { phraseFileSchema, type PhraseFile } from './phrase/phrase-file';
export { realignment, type CycleStart, type Realignment } from './phrase/realignment';
export { parseSwing, swingText } from './phrase/swing';
export { syllable } from './phrase/syllable';
export { isVoice, VOICES, voiceNumber, type Voice } from './phrase/voice';
export { phraseFile, writePhrase } from './phrase/write-phrase';

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
