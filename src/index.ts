// The engine's public face: everything that needs no browser.

export { beats, mixedNumber, parseBeats, type Beats } from './time/beats';
export { parseMeter, type Meter } from './time/meter';
export { bad, good, type Result } from './time/result';
export { steadyTempo, tempoMap, type TempoChange, type TempoMap } from './time/tempo';

export { decompose, type DecomposeOptions } from './phrase/decompose/decompose';
export { descriptionLength } from './phrase/decompose/description-length';
export { takeApart } from './phrase/decompose/take-apart';
export {
  targetPattern,
  type GraceSound,
  type PatternError,
  type PatternNote,
  type PatternPickup,
  type PatternStroke,
  type TargetPattern,
} from './phrase/decompose/target-pattern';
export { cycleNotes, expand, pickupNotes, type Span } from './phrase/layers/expand';
export {
  fitForm,
  leftOver,
  MOST_FORM_BARS,
  type Fit,
  type FitKind,
  type FormFit,
  type LeftOver,
  type NoFit,
} from './phrase/form/fit-form';
export { layerShape, type LayerShape } from './phrase/layers/layer-shape';
export { layerStack } from './phrase/layers/layer-stack';
export { LEVELS, type Level } from './phrase/model/level';
export { isHand, limbName, LIMBS, type Limb } from './phrase/model/limb';
export { nextLayer } from './phrase/layers/next-layer';
export type { Note } from './phrase/model/note';
export { parseGrouping } from './phrase/check/parse-grouping';
export { checkPhrase, parsePhrase } from './phrase/file/parse-phrase';
export { checkDraft } from './phrase/check/draft-check';
export type { Change, Layer, Phrase, Selector, Setting, SwingRatio } from './phrase/model/phrase';
export { draftOf, type LayerDraft, type PhraseDraft } from './phrase/model/phrase-draft';
export { type PhraseError, type PhraseErrorCode } from './phrase/model/phrase-error';
export { phraseFileSchema, type PhraseFile } from './phrase/model/phrase-file';
export {
  playability,
  type Playability,
  type PlayabilityProblem,
} from './phrase/playability/playability';
export type { PlayabilityCode } from './phrase/playability/hazard';
export { realignment, type CycleStart, type Realignment } from './phrase/layers/realignment';
export { parseSwing, swingText } from './phrase/model/swing';
export { syllable } from './phrase/model/syllable';
export { distance } from './phrase/vary/distance';
export { offer, type Variation } from './phrase/vary/offer';
export { proposeVariations, type Constraints } from './phrase/vary/propose';
export { vary, type Twist } from './phrase/vary/vary';
export type { VariedPhrase } from './phrase/vary/layered-variation';
export { isVoice, VOICES, voiceNumber, type Voice } from './phrase/model/voice';
export { phraseFile, writePhrase } from './phrase/file/write-phrase';

export { boundariesOf } from './kit/boundaries-of';
export { EDGE_AND_RIM, GENERAL_MIDI, kitFor } from './kit/built-in-kits';
export {
  DEFAULT_BOUNDARIES,
  type CrosstalkMask,
  type Kit,
  type LevelBoundaries,
  type Pad,
} from './kit/kit';
export { createFaultWatch, type FaultWatch } from './kit/faults/fault-watch';
export { KIT_FAULTS, type KitFault, type KitFaultName } from './kit/faults/kit-fault';
export {
  learnCrosstalk,
  withCrosstalk,
  type CrosstalkAnswer,
  type LearnedCrosstalk,
  type StruckPad,
} from './kit/faults/learn-crosstalk';
export {
  CHOKE,
  createKitReader,
  IGNORED,
  OPENING,
  STROKE,
  UNMAPPED,
  type KitReader,
} from './kit/kit-reader';
export { hear, learnedKit, skip, startLearning, type KitLearning } from './kit/learn';
export { withBoundaries } from './kit/edit-kit';
export { learnLevels, type LevelStrokes } from './kit/learn-levels';
export { LEARN_STEPS, type LearnStep } from './kit/learn-steps';
export { createSetAside, type LiveSetAside } from './kit/live-set-aside';
export { faultLimits, padFault, type FaultLimits } from './kit/pad-fault';
export { padGroups, type PadGroups } from './kit/pad-groups';
export { checkKit, parseKit, writeKit, type KitError } from './kit/parse-kit';
export { setAside } from './kit/set-aside';
export type { Stroke } from './kit/stroke';
export { velocitySummary, type VelocitySummary } from './kit/velocity-summary';

export { requiredLevels } from './score/required-levels';
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
export { asksLevel, levelVerdict, type RequiredLevels } from './score/level-verdict';
export { levelsApart, type Apart, type PadLevels } from './score/levels-apart';
export { scoreTake, type TakeScore } from './score/score-take';
export { separation } from './score/separation';
export { MAD_TO_SPREAD, robustSpread, spread } from './score/spread';
export { swingRatio, type OffbeatOffsets, type SwingPlayed } from './score/swing-ratio';
export { theilSen } from './score/theil-sen';
export { cleanNotesNeeded, wilson, type Interval } from './score/wilson';

export { chance, type Chance } from './time/chance';
export type { MidiFile, MidiFileError, MidiMessage } from './take/midi-file';
export { tickTimes } from './take/midi-ticks';
export { readMidiFile } from './take/read-midi-file';
export {
  createSimulatedPlayer,
  simulate,
  type Faults,
  type SimulatedPlayer,
  type SimulatedTake,
} from './take/simulate';
export { readStrokes, type KitStrokes } from './kit/read-strokes';
export type { Take } from './take/take';
export type { RawMessage } from './kit/raw-message';
export { takeCsv } from './take/take-csv';
export { parseTake, writeTake, type TakeError } from './take/take-json';
export { takeOfMidiFile, tempoOfMidiFile, type MidiTake } from './take/take-of-midi-file';
export { writeMidiFile, type MidiFileContent } from './take/write-midi-file';

export { capture, type CaptureRefusal, type CaptureReport } from './capture/capture';
export { SURE_FROM, type CaptureFinding } from './capture/capture-finding';
export { decodeTake, type CaptureTake, type DecodedTake } from './capture/capture-take';
export type { StruckPlace } from './capture/consensus';
export type { Corrections } from './capture/corrections';
export type { CaptureInput } from './capture/place-in-bars';
export { takeInFile, type FileOptions, type FileTake } from './capture/take-in-file';
export {
  playedGrouping,
  type GroupingError,
  type HandsOn,
  type PlayedGrouping,
} from './capture/played-grouping';
export type { PlayedStroke } from './capture/played-stroke';

export { CAUTIONS, type Caution } from './coach/cautions';
export type { Finding } from './coach/finding';
export { findings } from './coach/findings';
export { justNoticeableMs } from './coach/just-noticeable';
export { lostPlace, type Slip } from './coach/lost-place';
export { type HitWindow, type WindowSettings, hitWindow } from './match/hit-window';
export type { Plan } from './match/plan';
export { type AssessedMessages, assessMessages } from './score/assess';
export { MAX_REACH_US } from './match/pair-weight';
