// The engine's public face: what its answers are asked with, and every type they name. `cli` uses this alone.

export { beats, mixedNumber, type Beats } from './time/beats';
export { parseMeter, type Meter } from './time/meter';
export type { Result } from './time/result';
export type { BarStretch, SilentBars } from './time/silent-bars';
export { steadyTempo, tempoMap, type TempoMap, type TempoChange } from './time/tempo';

export { tempoText } from './phrase/model/beat-word';
export type { Level } from './phrase/model/level';
export { limbName, type Limb } from './phrase/model/limb';
export type { Note, NoteSound } from './phrase/model/note';
export type { Passage } from './phrase/model/passage';
export type {
  Phrase,
  RootStep,
  SwingRatio,
  Layer,
  Change,
  Selector,
  Setting,
  PickupStroke,
  AddedStroke,
  Grace,
  Every,
  RootStroke,
} from './phrase/model/phrase';
export type { PhraseError, PhraseErrorCode } from './phrase/model/phrase-error';
export type { Voice } from './phrase/model/voice';
export { checkPhrase, parsePhrase } from './phrase/file/parse-phrase';
export { parsePhrases, writePhrases } from './phrase/file/phrase-list';
export { writePhrase } from './phrase/file/write-phrase';
export type { CycleNote } from './phrase/layers/cycle-pattern';
export { expand, type Span } from './phrase/layers/expand';
export { layerShape, type LayerShape } from './phrase/layers/layer-shape';
export { realignment, type Realignment, type CycleStart } from './phrase/layers/realignment';
export type { TimelineNote } from './phrase/layers/timeline';
export type { PlayabilityCode } from './phrase/playability/hazard';
export {
  playability,
  type Playability,
  type PlayabilityProblem,
} from './phrase/playability/playability';
export type { Excerpt } from './phrase/exercise/excerpt-words';
export type { ExerciseChoice } from './phrase/exercise/exercise';
export type { Part } from './phrase/exercise/part';
export type { FileRemark } from './phrase/decompose/file-remark';
export { decompose, type DecomposeOptions } from './phrase/decompose/decompose';
export {
  targetPattern,
  type PatternError,
  type TargetPattern,
  type PatternNote,
  type PatternPickup,
  type PatternStroke,
  type GraceSound,
} from './phrase/decompose/target-pattern';
export {
  fitForm,
  type FormFit,
  type LeftOver,
  type Fit,
  type NoFit,
  type FitKind,
} from './phrase/form/fit-form';
export type { VariedPhrase } from './phrase/vary/layered-variation';
export type { Variation } from './phrase/vary/offer';
export { proposeVariations, type Constraints } from './phrase/vary/propose';
export { vary, type Twist } from './phrase/vary/vary';

export { MOST_BARS, layerScore } from './notation/score/layer-score';
export type {
  BeatGroup,
  CycleBracket,
  Score,
  ScoreBar,
  StaffEvent,
  StaffNote,
  StaffVoice,
} from './notation/score/score';
export { unwrittenParts } from './notation/score/unwritten-parts';
export { readMxl, writeMxl } from './notation/musicxml/mxl';
export type { MusicXmlError } from './notation/musicxml/musicxml-error';
export {
  readMusicXml,
  type MusicXmlExcerpt,
  type MusicXmlReading,
} from './notation/musicxml/read-musicxml';
export { writeMusicXml } from './notation/musicxml/write-musicxml';
export type { Beam, BeamGroup } from './notation/beams';
export type { Tuplet } from './notation/written-beat';
export { writeMei } from './notation/mei/write-mei';
export type { SheetGlyphs } from './notation/sheet/engraved-page';
export {
  engraveSheet,
  type Engraver,
  type SheetLine,
  type SheetPicture,
} from './notation/sheet/engrave-sheet';
export { facesOf, type SheetFace, type SheetFaceFiles } from './notation/sheet/sheet-faces';
export { sheetFile } from './notation/sheet/sheet-file';
export type { Paper, SheetLook, SheetSize } from './notation/sheet/sheet-look';

export { alignedMessages } from './kit/aligned-messages';
export { boundariesOf } from './kit/boundaries-of';
export { GENERAL_MIDI, kitFor } from './kit/built-in-kits';
export {
  nameOfPad,
  type Kit,
  type Pad,
  type HiHatOpening,
  type CrosstalkMask,
  type LevelBoundaries,
} from './kit/kit';
export { parseKit, writeKit, type KitError } from './kit/parse-kit';
export { struckNotes, type RawMessage } from './kit/raw-message';
export { strokesSetAside, type StrokesSetAside } from './kit/pad-fault';
export { readStrokes, type KitStrokes } from './kit/read-strokes';
export type { Stroke } from './kit/stroke';

export type {
  MidiFile,
  MidiDivision,
  MidiTempo,
  MidiMeter,
  MidiMessage,
  MidiText,
  MidiFileError,
} from './take/midi-file';
export { playedTo, type LayersPlayed } from './take/midi-marks';
export { readMidiFile } from './take/read-midi-file';
export { simulate, type Faults, type SimulatedTake, type SimulatedStroke } from './take/simulate';
export type { Player } from './take/player';
export type { Guess } from './take/guess';
export type { Take, TakeHead, TakeTrials } from './take/take';
export type { TakeExercise } from './take/take-exercise';
export { csvText, type CsvCell } from './take/csv';
export { takeCsv } from './take/take-csv';
export { takeErrors, type TakeError, type TakeExtent } from './take/judgeable-take';
export { parseTake, writeTake } from './take/take-json';
export { takeMidi } from './take/take-midi';
export {
  takeOfMidiFile,
  type MidiTakeError,
  type MidiTakeOptions,
  type MidiTake,
} from './take/take-of-midi-file';
export { writeMidiFile, type MidiFileContent } from './take/write-midi-file';

export { hitWindow, type WindowSettings, type HitWindow } from './match/hit-window';
export { matchTake } from './match/match-take';
export type { Matching } from './match/matching';
export { MAX_REACH_US } from './match/pair-weight';
export type { Plan } from './match/plan';
export type { TimedNote } from './match/timed-note';
export { timedNotes } from './match/timed-notes';
export type { Verdict } from './match/verdict';

export { assess, assessMessages, type AssessedMessages, type NotesUpTo } from './score/assess';
export type { DynamicsReport, Dynamics } from './score/dynamics';
export { figuresOf, type Figures } from './score/figures';
export type { Gate } from './score/gate';
export type { GateOptions } from './score/gate-options';
export type { Grouped, WrongVoicePair } from './score/groups';
export type { Judgement } from './score/judge';
export type { JudgedNote } from './score/judged-note';
export type { RequiredLevels, LevelVerdict } from './score/level-verdict';
export type { OwnCount, OwnLack } from './score/own-notes';
export { padsWithoutLevels, type PadWithoutLevels } from './score/pads-without-levels';
export { scoreTake, type TakeScore } from './score/score-take';
export { playedSwing, type PlayedSwing } from './score/played-swing';
export type { SwingEstimate } from './score/swing-ratio';
export type { Interval } from './score/statistics/wilson';
export { gateOfTake, type GateReport, type TrialOptions } from './score/trials';

export { byTempoWords, type TempoLook } from './coach/by-tempo-words';
export { clickReturns, type ClickReturn } from './coach/click-returns';
export { meanReturnWords, returnWords } from './coach/return-words';
export type { Finding } from './coach/finding';
export {
  comparisons,
  type Comparison,
  type JudgedTake,
  type PracticeBetween,
} from './coach/comparison/comparisons';
export type { Difference } from './coach/comparison/difference';
export type { Drill } from './coach/drill';
export { findings, MOST_FINDINGS } from './coach/findings';
export type { FindingsOptions } from './coach/take-evidence';
export { gateWords } from './coach/gate-words';
export { inLayerWords } from './coach/in-layer-words';
export { endsLost, type Slip } from './coach/place/slip';
export { followSlips } from './coach/place/follow-slips';
export { followedWords } from './coach/place/followed-words';
export { slipsInTake } from './coach/place/slips';
export { padsWithoutLevelsWords } from './coach/pads-without-levels-words';
export { setAsideWords, unmappedWords, wrongVoiceWords } from './coach/stray-words';
export { swingWords } from './coach/swing-words';
export {
  sumOfRows,
  takeRow,
  type RowFigures,
  type TakeRow,
  type TakeRowOptions,
} from './coach/take-row';
export { tempoLooks } from './coach/tempo-looks';
export type { FactsOf, FindingCode, Sentence } from './coach/wording';

export { fileKind, type FileKind } from './exchange/file-kind';

export { capture, type CaptureReport, type CaptureRefusal } from './capture/capture';
export type { CaptureFinding, CaptureSubject } from './capture/capture-finding';
export type { DecodedTake, CaptureTake } from './capture/capture-take';
export type { StruckPlace } from './capture/consensus';
export type { Corrections } from './capture/corrections';
export type { CaptureInput } from './capture/place-in-bars';
export type { PlayedStroke } from './capture/played-stroke';
export { takeInFile, type FileOptions, type FileTake } from './capture/take-in-file';
export type { Transcription } from './capture/transcribe';

export { midiOfPhrase, type PhraseMidiOptions } from './exchange/midi-of-phrase';
export {
  type MusicFile,
  type MusicFormat,
  type MusicPart,
  phraseAsMusic,
} from './exchange/phrase-as-music';
export { phraseInFile, type MidiPhrase, type PhraseInFileOptions } from './exchange/phrase-in-file';
export type { PhraseInFileError } from './exchange/phrase-in-file-error';
