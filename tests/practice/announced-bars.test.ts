import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { LiveTake } from '../../src/live/live-take';
import { LiveTimeline } from '../../src/live/live-timeline';
import { withUpcoming, type Upcoming } from '../../src/live/upcoming';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { pickupNotes } from '../../src/phrase/layers/expand';
import type { Phrase } from '../../src/phrase/model/phrase';
import type { PhraseFile } from '../../src/phrase/model/phrase-file';
import { TakeRun } from '../../src/practice/takes/take-run';
import { beats } from '../../src/time/beats';
import { chance } from '../../src/time/chance';
import { upcomingWords } from '../../src/view/screens/practise/words/upcoming-words';
import { libraryPhrases } from '../phrase/library-phrases';
import { handPage } from './hand-page';

/** Where a phrase of the library has no pickup, its last layer gets one. */
function withPickup(file: PhraseFile): PhraseFile {
  const has = file.layers.some(({ changes = [] }) => changes.some((change) => 'pickup' in change));
  const pickup = [
    { partialsBefore: 2, limb: 'R' as const },
    { partialsBefore: 1, limb: 'L' as const },
  ];
  const added = { name: 'Pickup', changes: [{ pickup }] };
  return has ? file : { ...file, layers: [...file.layers, added] };
}

const PHRASES: readonly Phrase[] = libraryPhrases().map(({ text }) => {
  const checked = checkPhrase(withPickup(JSON.parse(text) as PhraseFile));
  if (!checked.ok) throw new Error(checked.errors[0]!.message);
  return checked.value;
});

/** A choice while playing: another layer, or the tempo so many times as fast. */
type Choice = { readonly layer: number } | { readonly faster: number };

interface Play {
  readonly layer: number;
  readonly bpm: number;
  readonly choices: readonly Choice[];
}

/** The first layer (1-based) with a pickup. */
const pickupLayer = (phrase: Phrase): number =>
  1 + phrase.layers.findIndex((_, i) => pickupNotes(phrase, i + 1).length > 0);

/** At this tempo no bar of the library ends within what the lane is laid out ahead. */
const SLOW = 14;
const KINDS: readonly (readonly [string, (phrase: Phrase) => Play])[] = (
  [
    ['a layer up', () => ({ layer: 1, choices: [{ layer: 2 }] })],
    ['a layer down', ({ layers }) => ({ layer: layers.length, choices: [{ layer: 1 }] })],
    ['a layer whose pickup cuts in', (of) => ({ layer: 1, choices: [{ layer: pickupLayer(of) }] })],
    ['a faster tempo', () => ({ layer: 2, choices: [{ faster: 1.2 }] })],
    ['a slower tempo', () => ({ layer: 2, choices: [{ faster: 0.7 }] })],
    ['a layer, then a tempo', () => ({ layer: 1, choices: [{ layer: 2 }, { faster: 1.3 }] })],
    ['a tempo, then a layer', () => ({ layer: 1, choices: [{ faster: 0.8 }, { layer: 2 }] })],
    [
      'two layers in a row',
      (of) => ({ layer: 1, choices: [{ layer: 2 }, { layer: pickupLayer(of) }] }),
    ],
    ['two tempos in a row', () => ({ layer: 1, choices: [{ faster: 1.1 }, { faster: 0.9 }] })],
    [
      'a layer beyond what is laid out ahead',
      (of) => ({ layer: 1, bpm: SLOW, choices: [{ layer: pickupLayer(of) }] }),
    ],
    [
      'a tempo and a layer beyond it',
      () => ({ layer: 1, bpm: SLOW, choices: [{ faster: 1.4 }, { layer: 2 }] }),
    ],
  ] satisfies [string, (phrase: Phrase) => Omit<Play, 'bpm'> & { bpm?: number }][]
).map(([name, play]) => [name, (of: Phrase) => ({ bpm: of.tempoBpm, ...play(of) })] as const);

/** Plays with the choices made one after the other from `askUs` on, until two bars after the last of them has come. */
function playOut(phrase: Phrase, { layer, bpm, choices }: Play, askUs: number) {
  const hand = handPage();
  const timeline = new LiveTimeline({
    phrase,
    passages: [{ fromBar: 1, layer }],
    tempos: [{ fromBeat: beats(0), bpm }],
    windows: {},
    countInBars: 1,
  });
  const run = new TakeRun(hand.dependencies, {
    take: new LiveTake(timeline, GENERAL_MIDI),
    click: () => ({ follows: 'meter', beats: 'all' }),
    reference: () => 'off',
    onCycle: () => undefined,
  });
  run.start();
  const originMs = hand.page.nowMs - run.nowUs() / 1000;
  const passTo = (us: number) => hand.passTo(originMs + us / 1000);
  let upcoming: readonly Upcoming[] = [];
  choices.forEach((choice, i) => {
    passTo(askUs + i * 350_000);
    const change =
      'layer' in choice ? run.changeLayer(choice.layer) : run.changeTempo(bpm * choice.faster);
    const { tempo, phrase: played } = timeline.plan;
    upcoming = withUpcoming(upcoming, change, tempo, played.meter.beatsPerBar);
  });
  const announced = upcomingWords(upcoming);
  const lastUs = Math.max(...upcoming.map(({ atUs }) => atUs));
  const endUs = lastUs + (2 * 60e6 * phrase.meter.beatsPerBar) / (0.7 * bpm);
  passTo(endUs);
  const barsUs = hand.output.sounds
    .filter(({ cancelled, event }) => !cancelled && event.kind === 'click' && event.sound === 'bar')
    .map(({ atSeconds }) => (atSeconds * 1000 - originMs) * 1000);
  run.stop();
  return { announced, timeline, barsUs, endUs };
}

interface Announced {
  /** Beats from bar 1 beat 1. */
  readonly at: number;
  readonly layer: number | undefined;
  readonly bpm: number | undefined;
  readonly hasPickup: boolean;
}

const ANNOUNCED =
  /(?:layer (\d+)|([\d.]+) bpm) from bar (\d+)(?: beat (\d+)(?: (\d+)\/(\d+))?)?(, after its pickup)?/g;

/** What somebody reads who is told, apart from how it was worked out. */
const readAloud = (words: string, beatsPerBar: number): Announced[] =>
  [...words.matchAll(ANNOUNCED)].map(([, layer, bpm, bar, beat, over, under, pickup]) => ({
    at:
      (Number(bar) - 1) * beatsPerBar +
      (beat === undefined ? 0 : Number(beat) - 1) +
      (over === undefined ? 0 : Number(over) / Number(under)),
    layer: layer === undefined ? undefined : Number(layer),
    bpm: bpm === undefined ? undefined : Number(bpm),
    hasPickup: pickup !== undefined,
  }));

/** When a beat comes by what was announced, µs from bar 1 beat 1: 60 s over the tempo a beat. */
function announcedUs(beat: number, firstBpm: number, changes: readonly Announced[]): number {
  let us = 0;
  let from = 0;
  let bpm = firstBpm;
  for (const change of changes) {
    if (change.bpm === undefined || change.at > beat) continue;
    us += ((change.at - from) * 60e6) / bpm;
    from = change.at;
    bpm = change.bpm;
  }
  return us + ((beat - from) * 60e6) / bpm;
}

describe.each(KINDS)('announced: %s', (_, playOf) => {
  it.each(PHRASES.map((phrase, i) => [phrase.title, phrase, i] as const))(
    '%s comes at the bar that was said',
    (_title, phrase, i) => {
      const { next } = chance(41 * i + 7);
      for (let time = 0; time < 2; time++) {
        const play = playOf(phrase);
        const { announced, timeline, barsUs, endUs } = playOut(phrase, play, next() % 9_000_000);
        const { beatsPerBar } = phrase.meter;
        const changes = readAloud(announced, beatsPerBar);
        const layers = changes.filter(({ layer }) => layer !== undefined);
        expect(layers.map(({ layer }) => layer)).toEqual(
          play.choices.flatMap((choice) => ('layer' in choice ? [choice.layer] : [])),
        );
        const whenUs = (beat: number) => announcedUs(beat, play.bpm, changes);

        const clicked = barsUs.filter((us) => us >= -1 && us < endUs);
        expect(clicked.length).toBeGreaterThan(1);
        clicked.forEach((us, bar) =>
          expect(Math.abs(us - whenUs(bar * beatsPerBar))).toBeLessThan(3),
        );

        for (const { note, layer, timeUs } of timeline.notes) {
          const beat = note.onset.valueOf();
          if (note.graceStep === 0 && timeUs < endUs)
            expect(Math.abs(timeUs - whenUs(beat)), `${announced}: beat ${beat}`).toBeLessThan(3);
          const isPickup = note.cycle === 0 && beat >= 0;
          const said = isPickup
            ? layers.find(({ at, hasPickup }) => hasPickup && at > beat)
            : layers.findLast(({ at }) => at <= beat);
          expect(layer, `${announced}: beat ${beat}`).toBe(said?.layer ?? play.layer);
        }
        for (const { at, layer, hasPickup } of layers) {
          const of = timeline.notes.filter((due) => due.layer === layer);
          expect(of.some(({ note }) => note.cycle > 0 && note.onset.valueOf() >= at)).toBe(true);
          const cutsIn = of.find(({ note }) => note.cycle === 0 && note.onset.valueOf() >= 0);
          expect(cutsIn !== undefined, announced).toBe(hasPickup);
          if (!cutsIn) continue;
          // The pickup takes the last partials before its bar for itself.
          const fromBeat = cutsIn.note.onset.valueOf();
          const others = timeline.notes.filter(({ note, passage }) => {
            const beat = note.onset.valueOf();
            return beat >= fromBeat && beat < at && passage !== cutsIn.passage;
          });
          expect(others, announced).toEqual([]);
        }
      }
    },
  );
});

it('is tried with changes that the lane is not laid out to', () => {
  for (const phrase of PHRASES)
    expect((60e6 * phrase.meter.beatsPerBar) / SLOW).toBeGreaterThan(8_000_000);
});
