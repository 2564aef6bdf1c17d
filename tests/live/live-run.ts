import { readdirSync, readFileSync } from 'node:fs';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { Kit } from '../../src/kit/kit';
import { KitDecoder } from '../../src/kit/kit-decoder';
import { STROKE } from '../../src/kit/kit-reader';
import type { RawMessage } from '../../src/kit/raw-message';
import { LANE_LEVEL_VERDICTS, LANE_VERDICTS } from '../../src/live/lane-feed';
import { LiveTake } from '../../src/live/live-take';
import { LiveTimeline } from '../../src/live/live-timeline';
import { openTake } from '../../src/live/open-take';
import { timedNotes } from '../../src/match/timed-notes';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { finishedTake } from '../../src/practice/takes/finished-take';
import type { Judgement } from '../../src/score/judge';
import { simulate } from '../../src/take/simulate';
import { beats } from '../../src/time/beats';
import { chance } from '../../src/time/chance';
import { layeredPhrase, phraseOf } from '../phrase/phrase-of';

const folder = new URL('../../shared/phrases/', import.meta.url);
const library = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => {
    const parsed = parsePhrase(readFileSync(new URL(name, folder), 'utf8'));
    if (!parsed.ok) throw new Error(`${name}: ${parsed.errors[0]!.message}`);
    return parsed.value;
  });
/** Grace notes ahead of a cycle, and a hi-hat that is opened and closed. */
const PHRASES = [
  ...library,
  phraseOf({ grouping: 'llR L R L' }),
  phraseOf({ grouping: 'lR L rL R+K', subdivision: 3 }),
  layeredPhrase({ grouping: 'R R R+L R' }, [
    { where: { limb: 'R' }, set: { voice: 'hi-hat closed' } },
    { where: { limb: 'R', nth: [2, 4] }, set: { voice: 'hi-hat open' } },
  ]),
];
/** A kit whose hi-hat says by its controller how far it is open. */
const FOLLOWING: Kit = {
  ...EDGE_AND_RIM,
  title: 'Ferry stage kit',
  pads: EDGE_AND_RIM.pads
    .filter(({ voice }) => voice !== 'hi-hat open')
    .map((pad) => (pad.voice === 'hi-hat closed' ? { ...pad, followsOpening: true } : pad)),
};
const KITS = [GENERAL_MIDI, EDGE_AND_RIM, FOLLOWING, FOLLOWING];

const END_US = 8_000_000;
/** A page lays out so far ahead, and tells of a change so long before, microseconds. */
const AHEAD_US = 6_000_000;
const NOTICE_US = 1_200_000;
/** Messages arrive late by up to this, and so out of order; where the page stood still, by much more. */
const LATE_US = 400_000;
const STOOD_STILL_US = 3_000_000;

/** Another tempo, the next layer, a target that waits by so many partials, or a player who is brought back. */
interface Change {
  readonly atUs: number;
  readonly bpm?: number;
  readonly move?: number | 'layer' | 'back';
}

/**
 * What differs in a take that is played, kept and opened again; all of it is decided by the seed.
 *
 * @param onMessage is called after each message with the take so far, and when it is, microseconds
 */
export function differencesOfRun(
  seed: number,
  onMessage: (take: LiveTake, nowUs: number) => void = () => undefined,
): string[] {
  const { next, share } = chance(seed);
  const draw = (below: number) => next() % below;
  const phrase = PHRASES[draw(PHRASES.length)]!;
  const kit = KITS[draw(KITS.length)]!;
  const rigMs = [0, 0, 23, -4][draw(4)]!;
  const isInOrder = draw(4) === 0;
  const others = Array.from({ length: draw(3) }, (_, i): Change => {
    const atUs = i * 2_500_000 + draw(2_000_000);
    return draw(2) === 0 ? { atUs, bpm: 50 + draw(190) } : { atUs, move: 'layer' };
  });
  const changes = [...others, ...placeMoves(seed)].sort((a, b) => a.atUs - b.atUs);
  const begin = (() => {
    const layer = 1 + draw(phrase.layers.length);
    const bpm = 60 + draw(160);
    return () =>
      new LiveTimeline({
        phrase,
        passages: [{ fromBar: 1, layer }],
        tempos: [{ fromBeat: beats(0), bpm }],
        windows: {},
        countInBars: 1,
      });
  })();
  const apply = (timeline: LiveTimeline, { atUs, bpm, move }: Change): number => {
    timeline.extendTo(atUs + AHEAD_US);
    if (bpm !== undefined) return timeline.changeTempo(bpm, atUs + NOTICE_US).firstNote;
    if (move === 'back') return timeline.bringBack(atUs + NOTICE_US).firstNote;
    if (typeof move === 'number') return timeline.waitForPlayer(move, atUs + NOTICE_US).firstNote;
    const layer = timeline.plan.passages.at(-1)!.layer % phrase.layers.length;
    return timeline.changeLayer(layer + 1, atUs + NOTICE_US).firstNote;
  };

  const planned = begin();
  for (const change of changes) apply(planned, change);
  const faults = {
    spreadMs: 12 + draw(20),
    missed: 0.08,
    wrongVoices: 0.08,
    extra: 0.08,
    loudGhosts: 0.2,
    velocitySpread: 9,
  };
  // Some stop in the middle of a cycle, some between its grace notes and their main note.
  const endUs = END_US - draw(2_000_000);
  const { messages } = simulate(timedNotes(planned.plan, endUs), faults, draw(1e9), kit);
  const flattenPads = flat(kit, draw(4), draw(3));
  const sent = messages.map(flattenPads).flatMap((message): RawMessage[] => {
    const again = (afterUs: number, velocity: number, data1 = message.data1) => ({
      ...message,
      timeUs: message.timeUs + afterUs,
      data1,
      data2: velocity,
    });
    const dice = draw(12);
    if (message.status >> 4 !== 9) return [message];
    if (dice === 0) return [message, again(5000 + draw(20_000), 20)];
    if (dice === 1) return [message, again(draw(4000), 5, 38)];
    if (dice === 2) return [message, message];
    if (dice === 3) return [message, again(draw(9000), 60, 3)];
    if (dice === 4)
      return [
        message,
        { timeUs: message.timeUs - draw(50_000), status: 0xb9, data1: 4, data2: draw(128) },
      ];
    return [message];
  });
  const lateUs = draw(6) === 0 ? STOOD_STILL_US : LATE_US;
  const delivered = sent
    .map((message) => ({ message, atUs: message.timeUs + (isInOrder ? 0 : share() * lateUs) }))
    .sort((a, b) => a.atUs - b.atUs);

  const timeline = begin();
  const take = new LiveTake(timeline, kit, rigMs);
  const decoder = new KitDecoder(kit);
  const toCome = [...changes];
  const given: [number, number, number, number, number][] = [];
  const commands = chance(seed + 1);
  const commandEvery = [0, 0, 4, 25][commands.next() % 4]!;
  for (const { message, atUs } of [
    ...delivered,
    { message: undefined, atUs: END_US + STOOD_STILL_US },
  ]) {
    while (toCome[0] && toCome[0].atUs <= atUs) {
      take.advance(toCome[0].atUs);
      take.dropNotesFrom(apply(timeline, toCome.shift()!));
    }
    timeline.extendTo(atUs + AHEAD_US);
    take.sync();
    take.advance(atUs);
    if (!message) break;
    const { timeUs, status, data1, data2 } = message;
    const stampUs = timeUs + rigMs * 1000;
    const read = decoder.read(stampUs, status, data1, data2);
    take.receive(stampUs, read);
    given.push([stampUs, status, data1, data2, read.kind === STROKE ? read.stroke : -1]);
    // A command is given with some of the last strokes.
    if (commandEvery > 0 && commands.next() % commandEvery === 0) {
      for (const one of given.splice(-1 - (commands.next() % 3))) take.takeCommand(...one);
      take.commands.markSpot(atUs);
    }
    onMessage(take, atUs);
  }

  const kept = finishedTake(
    take,
    { phraseText: writePhrase(phrase), startedAt: '2026-05-04T18:00:00.000Z' },
    END_US,
  );
  const opened = openTake(kept);
  if (!opened) return ['the take was not opened'];
  const { judgement, lane, slips } = opened;
  take.advance(Infinity);
  const told = JSON.stringify(take.place.slips);
  return [
    ...(told === JSON.stringify(slips) ? [] : [`slips: ${told}, kept ${JSON.stringify(slips)}`]),
    ...differences('live', take, judgement),
    ...differences('lane', lane, judgement),
    ...(lane.noteCount === judgement.notes.length ? [] : ['lane: another number of notes']),
  ];
}

/** In half of the runs the target waits, or the player is brought back, once or twice. */
function placeMoves(seed: number): Change[] {
  const { next } = chance(seed + 77);
  const draw = (below: number) => next() % below;
  return Array.from({ length: draw(2) === 0 ? 0 : 1 + draw(2) }, () => {
    const partials = [-3, -2, -1, 1, 2, 3][draw(6)]!;
    return { atUs: draw(5_000_000), move: draw(3) === 0 ? 'back' : partials };
  });
}

/** A kit of which some pads (none, one, a few, all) send one velocity, for the whole take or up to some stroke. */
function flat(kit: Kit, which: number, length: number): (message: RawMessage) => RawMessage {
  const pads = kit.pads.map(({ note }) => note);
  const share = [0, 1, 3, pads.length][which]!;
  const flats = new Set(which === 1 ? [38] : pads.slice(0, share));
  const most = [Infinity, 15, 11][length]!;
  const counts = new Map<number, number>();
  return (message) => {
    const { status, data1: pad } = message;
    if (status >> 4 !== 9 || !flats.has(pad)) return message;
    const count = (counts.get(pad) ?? 0) + 1;
    counts.set(pad, count);
    return count > most ? message : { ...message, data2: 100 };
  };
}

function differences(name: string, take: LiveTake, { notes, extras }: Judgement): string[] {
  const found = notes.flatMap(({ due, verdict, levelVerdict, stroke }, i) => {
    const j = take.noteStroke[i]!;
    const shown = [
      take.noteTimeUs[i],
      LANE_VERDICTS[take.noteVerdict[i]!],
      LANE_LEVEL_VERDICTS[take.noteLevelVerdict[i]!],
      j < 0 ? undefined : take.strokeTimeUs[j],
    ].join();
    const judged = [
      due.timeUs,
      verdict,
      levelVerdict ?? (stroke ? 'not judged' : 'as written'),
      stroke?.timeUs,
    ].join();
    return shown === judged ? [] : [`${name}: note ${i} is ${shown}, judged ${judged}`];
  });
  const { extras: count } = take.countStrokes();
  return count === extras.length
    ? found
    : [...found, `${name}: ${count} extras, judged ${extras.length}`];
}
