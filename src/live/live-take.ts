import type { Kit, LevelBoundaries } from '../kit/kit';
import { KitDecoder, type KitMessage } from '../kit/kit-decoder';
import { STROKE } from '../kit/kit-reader';
import { COMMAND } from '../kit/pad-fault';
import type { RawMessage } from '../kit/raw-message';
import type { Stroke } from '../kit/stroke';
import { DEFAULT_REACH_MS } from '../match/hit-window';
import { Follower } from '../match/follower';
import { enlarge } from '../match/enlarge';
import { matchingOf } from '../match/matching';
import { mainIndex, type TimedNote } from '../match/timed-note';
import { LEVELS } from '../phrase/model/level';
import { LIMBS } from '../phrase/model/limb';
import { VOICES, voiceNumber } from '../phrase/model/voice';
import { requiredLevels } from '../score/required-levels';
import type { Judgement } from '../score/judge';
import { judge } from '../score/judge';
import { asksForLevel, levelVerdict, type RequiredLevels } from '../score/level-verdict';
import { mixedNumber } from '../time/beats';
import { LANE_LEVEL_VERDICTS, type LaneFeed } from './lane-feed';
import { LaneVoices } from './lane-voices';
import { LivePlace } from './live-place';
import type { LiveTimeline } from './live-timeline';
import { MessageLog } from './message-log';
import { strokeCounts, type StrokeCounts } from './stroke-counts';
import { StrokeLevels } from './stroke-levels';
import { TakeCommands } from './take-commands';

const ROOM = 4096;
const NOT_JUDGED = LANE_LEVEL_VERDICTS.indexOf('not judged');

/**
 * A take while it is played: decoded messages in, verdicts out, as columns that the lane draws. Nothing
 * is allocated per message while there is room, which `sync` makes at cycle rate.
 */
export class LiveTake implements LaneFeed {
  readonly timeline: LiveTimeline;
  readonly kit: Kit;
  readonly deviceOffsetMs: number;
  noteCount = 0;
  noteLevel = new Uint8Array(ROOM);
  noteLimb = new Uint8Array(ROOM);
  noteGraceStep = new Uint8Array(ROOM);
  noteMain = new Int32Array(ROOM);
  noteBar = new Int32Array(ROOM);
  readonly noteBeatLabel: string[] = [];
  noteCycle = new Int32Array(ROOM);
  notePosition = new Int32Array(ROOM);
  noteLevelVerdict = new Uint8Array(ROOM);
  strokeSetAside = new Uint8Array(ROOM);
  readonly log = new MessageLog();
  /** What gave commands while it was played, and the spots that were marked. */
  readonly commands: TakeCommands;
  readonly place: LivePlace;

  readonly #deviceOffsetUs: number;
  readonly #follower: Follower;
  readonly #levels: StrokeLevels;
  readonly #asks: RequiredLevels[] = [];
  readonly #voices = new LaneVoices();
  /** The earliest time of which anything changed since it was asked. */
  #changedUs = -Infinity;
  /** The decoder's number of the take's first stroke. */
  #firstStroke = 0;

  /** @param deviceOffsetMs the rig's part of every offset, taken off each message's time */
  constructor(timeline: LiveTimeline, kit: Kit, deviceOffsetMs = 0, commands = new TakeCommands()) {
    this.commands = commands;
    this.deviceOffsetMs = deviceOffsetMs;
    this.#deviceOffsetUs = Math.round(deviceOffsetMs * 1000);
    this.timeline = timeline;
    this.kit = kit;
    const { reachMs = DEFAULT_REACH_MS } = timeline.plan.windows;
    this.#follower = new Follower(Math.round(reachMs * 1000), ROOM, ROOM);
    this.#levels = new StrokeLevels(kit, ROOM, this);
    this.place = new LivePlace(timeline.plan, this, this.#levels);
  }

  get noteTimeUs() {
    return this.#follower.assignment.noteUs;
  }
  get noteVoice() {
    return this.#follower.assignment.noteVoice;
  }
  get noteReachUs() {
    return this.#follower.assignment.noteReachUs;
  }
  get noteToleranceUs() {
    return this.#follower.noteToleranceUs;
  }
  get noteVerdict() {
    return this.#follower.noteVerdict;
  }
  get noteStroke() {
    return this.#follower.assignment.strokeOfNote;
  }
  get strokeCount() {
    return this.#follower.assignment.strokeCount;
  }
  get strokeTimeUs() {
    return this.#follower.assignment.strokeUs;
  }
  get strokeVoice() {
    return this.#follower.assignment.strokeVoice;
  }
  get strokeVelocity() {
    return this.#follower.assignment.strokeVelocity;
  }
  get strokePad() {
    return this.#levels.pad;
  }
  get strokeNote() {
    return this.#follower.assignment.noteOfStroke;
  }
  /** Widest hit window there can be. */
  get windowUs() {
    return this.#follower.assignment.windowUs;
  }
  get marks() {
    return this.timeline.marks;
  }
  get cycles() {
    return this.timeline.cycles;
  }
  get accompaniment() {
    return this.timeline.accompaniment;
  }
  get rows() {
    return this.#voices.rows;
  }

  /** Lets go of the notes from index `first` on, which the timeline lays out anew. */
  dropNotesFrom(first: number): void {
    if (first >= this.noteCount) return;
    this.#touch(this.noteTimeUs[first]!);
    this.#follower.dropNotesFrom(first);
    this.noteCount = this.noteBeatLabel.length = first;
  }

  /** Takes over what the timeline has laid out beyond the notes so far, and makes room. Cycle rate. */
  sync(): void {
    const { notes, accompaniment, cycles, plan } = this.timeline;
    this.place.extendTo(plan, cycles.at(-1)?.endUs ?? 0);
    this.#voices.addAll(accompaniment);
    if (notes.length === this.noteCount) return;
    this.#makeRoom(notes.length);
    const asks = requiredLevels(this.timeline.plan);
    for (let i = this.noteCount; i < notes.length; i++) this.#addNote(notes[i]!, asks);
  }

  /** One message, as the take's kit reads it, with its time in the take. All messages come from one decoder. */
  receive(stampUs: number, message: KitMessage): void {
    this.log.add(stampUs, message.status, message.data1, message.data2);
    if (message.kind !== STROKE) return;
    const timeUs = stampUs - this.#deviceOffsetUs;
    const { voiceNumber, velocity } = message;
    const setAside = this.commands.has(this.log.count - 1) ? COMMAND : message.setAside;
    const follower = this.#follower;
    const j = follower.assignment.strokeCount;
    if (j === this.strokePad.length) this.#makeStrokeRoom(2 * j);
    if (j === 0) this.#firstStroke = message.stroke;
    this.strokeSetAside[j] = setAside;
    if (this.#levels.add(timeUs, voiceNumber, message.pad, velocity)) this.#forgetLevels();
    if (setAside === 0) {
      follower.add(timeUs, voiceNumber, velocity);
      this.#touch(timeUs);
      this.#judgeLevels();
      this.place.add(j);
    } else follower.addWithdrawn(timeUs, voiceNumber, velocity);
    for (let c = 0; c < message.changedCount; c++) {
      const other = message.changedStroke[c]! - this.#firstStroke;
      if (this.strokeSetAside[other] === COMMAND) continue;
      this.strokeSetAside[other] = message.changedTo[c]!;
      this.#withdraw(other);
    }
  }

  /**
   * A message that was received gave a command to the app, and is no stroke of the take. `stroke` is the decoder's number
   * of its stroke, -1 where it is none.
   */
  takeCommand(stampUs: number, status: number, data1: number, data2: number, stroke: number): void {
    const { commands, log } = this;
    commands.add(log.lastIndexOf(stampUs, status, data1, data2, commands));
    const j = stroke - this.#firstStroke;
    if (j < 0 || j >= this.strokeCount) return;
    if (this.strokeSetAside[j] === 0) this.#withdraw(j);
    this.strokeSetAside[j] = COMMAND;
  }

  /**
   * Receives messages that were kept, as `decoder` reads them; the take's bar 1 beat 1 falls on `originUs` of the
   * decoder's clock. Not for the live path.
   */
  replay(messages: readonly RawMessage[], decoder = new KitDecoder(this.kit), originUs = 0): void {
    for (const { timeUs, status, data1, data2 } of messages)
      this.receive(timeUs, decoder.read(originUs + timeUs, status, data1, data2));
  }

  /** The same take as another kit reads it: what was played so far is judged again from its raw messages. */
  readWith(decoder: KitDecoder, originUs: number): LiveTake {
    const take = new LiveTake(this.timeline, decoder.kit, this.deviceOffsetMs, this.commands);
    take.sync();
    take.replay(this.log.toMessages(), decoder, originUs);
    return take;
  }

  /** Lets time pass, so that notes nobody played become missed. */
  advance(nowUs: number): void {
    this.#follower.advance(nowUs);
    this.place.advance(nowUs);
  }

  countStrokes(): StrokeCounts {
    return strokeCounts(this);
  }

  /** The notes from index `from` up to `to`, with the strokes that belong there, judged. */
  judgement(from: number, to: number): Judgement {
    const notes = this.timeline.notes.slice(from, to);
    const first = notes[0];
    if (!first) return { notes: [], extras: [] };
    const sinceUs = from === 0 ? -Infinity : first.timeUs - first.reachUs;
    const untilUs = to < this.noteCount ? this.noteTimeUs[to]! - this.noteReachUs[to]! : Infinity;
    const strokes: Stroke[] = [];
    const levelsOf = new Map<Stroke, LevelBoundaries | undefined>();
    const indexOf = new Map<number, number>();
    for (let j = 0; j < this.strokeCount; j++) {
      if (this.strokeSetAside[j] !== 0) continue;
      const note = this.strokeNote[j]!;
      const timeUs = this.strokeTimeUs[j]!;
      if (note >= 0 ? note < from || note >= to : timeUs < sinceUs || timeUs >= untilUs) continue;
      indexOf.set(j, strokes.length);
      const stroke = this.#stroke(j);
      strokes.push(stroke);
      levelsOf.set(stroke, this.#levels.tells(j) ? this.#levels.boundaries(j) : undefined);
    }
    const strokeOfNote = Int32Array.from(
      notes,
      (_, i) => indexOf.get(this.noteStroke[from + i]!) ?? -1,
    );
    return judge(
      notes,
      strokes,
      matchingOf(strokeOfNote, strokes.length),
      (stroke) => levelsOf.get(stroke),
      requiredLevels(this.timeline.plan),
    );
  }

  /**
   * The first note of which anything changed since this was asked last, the strokes that are told with it included. A
   * stroke is told with a note at most a hit window farther off than the one it answers, or the last note before it.
   */
  firstChangedNote(): number {
    const sinceUs = this.#changedUs - 2 * this.windowUs;
    this.#changedUs = Infinity;
    let first = this.noteCount;
    while (first > 0 && this.noteTimeUs[first - 1]! >= sinceUs) first--;
    return sinceUs < Infinity ? Math.max(0, first - 1) : first;
  }

  #touch(timeUs: number): void {
    if (timeUs < this.#changedUs) this.#changedUs = timeUs;
  }

  #stroke(j: number): Stroke {
    return {
      timeUs: this.strokeTimeUs[j]!,
      voice: VOICES[this.strokeVoice[j]!]!,
      velocity: this.strokeVelocity[j]!,
      pad: this.strokePad[j]!,
    };
  }

  #addNote(due: TimedNote, asks: (layer: number) => RequiredLevels): void {
    const i = this.noteCount++;
    const { note } = due;
    const voice = voiceNumber(note.voice);
    this.#voices.add(voice);
    this.#follower.addNote(due.timeUs, voice, due.reachUs, due.toleranceUs);
    this.noteLevel[i] = LEVELS.indexOf(note.level);
    this.noteLimb[i] = LIMBS.indexOf(note.limb);
    this.noteGraceStep[i] = note.graceStep;
    this.noteMain[i] = mainIndex(this.timeline.notes, i);
    this.noteBar[i] = note.bar;
    this.noteBeatLabel[i] = mixedNumber(note.beat);
    this.noteCycle[i] = note.cycle;
    this.notePosition[i] = note.position;
    this.noteLevelVerdict[i] = 0;
    this.#asks[due.layer] = asks(due.layer);
  }

  /** What was said of levels before it was known that a pad has none. Once a pad. */
  #forgetLevels(): void {
    this.#touch(-Infinity);
    this.place.changeLevels();
    for (let i = 0; i < this.noteCount; i++) this.noteLevelVerdict[i] = this.#levelCode(i);
  }

  #withdraw(stroke: number): void {
    this.#follower.withdraw(stroke);
    this.place.withdraw(stroke);
    this.#touch(this.strokeTimeUs[stroke]!);
    this.#judgeLevels();
  }

  #judgeLevels(): void {
    const { changedNotes, changedCount } = this.#follower.assignment;
    for (let c = 0; c < changedCount; c++) {
      const i = changedNotes[c]!;
      this.#touch(this.noteTimeUs[i]!);
      this.noteLevelVerdict[i] = this.#levelCode(i);
    }
  }

  #levelCode(i: number): number {
    const j = this.noteStroke[i]!;
    if (j < 0) return 0;
    const { note, layer } = this.timeline.notes[i]!;
    const asked = this.#asks[layer]!;
    if (!this.#levels.tells(j)) return asksForLevel(note.voice, asked) ? NOT_JUDGED : 0;
    const boundaries = this.#levels.boundaries(j);
    const verdict = levelVerdict(note, this.strokeVelocity[j]!, boundaries, asked);
    return LANE_LEVEL_VERDICTS.indexOf(verdict);
  }

  #makeRoom(notes: number): void {
    const { assignment } = this.#follower;
    this.#follower.reserve(notes, 0);
    const size = assignment.noteUs.length;
    if (size > this.noteLevel.length) {
      this.noteLevel = enlarge(this.noteLevel, new Uint8Array(size));
      this.noteLimb = enlarge(this.noteLimb, new Uint8Array(size));
      this.noteGraceStep = enlarge(this.noteGraceStep, new Uint8Array(size));
      this.noteMain = enlarge(this.noteMain, new Int32Array(size));
      this.noteBar = enlarge(this.noteBar, new Int32Array(size));
      this.noteCycle = enlarge(this.noteCycle, new Int32Array(size));
      this.notePosition = enlarge(this.notePosition, new Int32Array(size));
      this.noteLevelVerdict = enlarge(this.noteLevelVerdict, new Uint8Array(size));
    }
    if (this.strokeCount > this.strokePad.length / 2)
      this.#makeStrokeRoom(2 * this.strokePad.length);
    this.log.makeRoom();
  }

  #makeStrokeRoom(size: number): void {
    this.#follower.reserve(0, size);
    this.#levels.reserve(size);
    this.strokeSetAside = enlarge(this.strokeSetAside, new Uint8Array(size));
  }
}
