import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { Plan } from '../../src/match/plan';
import { timedNotes } from '../../src/match/timed-notes';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { assess } from '../../src/score/assess';
import { playedSwing } from '../../src/score/played-swing';
import { beats } from '../../src/time/beats';
import { steadyTempo, tempoMap } from '../../src/time/tempo';

function plan(file: object): Plan {
  const checked = checkPhrase({
    title: 'Rocking boat',
    meter: '4/4',
    tempoBpm: 120,
    subdivision: 2,
    grouping: 'R L',
    layers: [{ name: 'Eighths' }],
    ...file,
  });
  if (!checked.ok) throw new Error(checked.errors[0]!.message);
  return {
    phrase: checked.value,
    passages: [{ fromBar: 1, layer: 1 }],
    tempo: steadyTempo(120),
    windows: {},
  };
}

/** Plays a plan with every off-beat eighth so many ms from where it is written. */
function playedWith(one: Plan, offbeatMs: number) {
  const strokes = timedNotes(one, 7_900_000).map(({ note, timeUs }) => ({
    timeUs: timeUs + (note.limb === 'L' ? offbeatMs * 1000 : 0),
    voice: note.voice,
    velocity: 70,
    pad: 38,
  }));
  return playedSwing(one, assess(one, strokes, GENERAL_MIDI));
}

/** A beat is 500 ms: a ratio r puts the off-beat 500·r/(1 + r) ms after it (standards table of swing ratios, C). */
describe('the swing that was played', () => {
  it('is 1 for straight eighths', () => {
    expect(playedWith(plan({}), 0)).toMatchObject({ ratio: 1, written: 1, offbeats: 16 });
  });

  it('is 2 where straight eighths are played on the third triplet partial', () => {
    expect(playedWith(plan({}), 500 * (2 / 3) - 250)?.ratio).toBeCloseTo(2, 4);
  });

  it('tells swing against what is written', () => {
    const swung = playedWith(plan({ swing: '2:1' }), 500 * 0.6 - 500 * (2 / 3));
    expect(swung).toMatchObject({ written: 2 });
    expect(swung?.ratio).toBeCloseTo(1.5, 4);
  });

  it('is that of the last tempo', () => {
    const tempo = tempoMap([
      { fromBeat: beats(0), bpm: 120 },
      { fromBeat: beats(8), bpm: 60 },
    ]);
    const one = { ...plan({}), tempo };
    const shiftUs = (limb: string, timeUs: number) => {
      if (limb === 'L') return timeUs < 4_000_000 ? 60_000 : 0;
      return timeUs === 4_000_000 ? 20_000 : 0;
    };
    const strokes = timedNotes(one, 11_900_000).map(({ note, timeUs }) => ({
      timeUs: timeUs + shiftUs(note.limb, timeUs),
      voice: note.voice,
      velocity: 70,
      pad: 38,
    }));
    const found = playedSwing(one, assess(one, strokes, GENERAL_MIDI));
    // The beat on which the tempo changes is one of the eight: 20 ms late, it brings their mean to 2.5 ms.
    expect(found).toMatchObject({ offbeats: 8 });
    expect(found!.ratio).toBeCloseTo((500 - 2.5) / (500 + 2.5), 9);
  });

  it('is that of the last layer, without its grace notes', () => {
    const layers = [
      { name: 'Eighths' },
      { name: 'Flams', changes: [{ where: { limb: 'L' }, set: { grace: 'flam' } }] },
    ];
    const one: Plan = {
      ...plan({ layers }),
      passages: [
        { fromBar: 1, layer: 1 },
        { fromBar: 3, layer: 2 },
      ],
    };
    const strokes = timedNotes(one, 7_900_000).map(({ note, timeUs, layer }) => ({
      timeUs: timeUs + (layer === 1 && note.limb === 'L' ? 60_000 : 0) - 10_000 * note.graceStep,
      voice: note.voice,
      velocity: 70,
      pad: 38,
    }));
    const found = playedSwing(one, assess(one, strokes, GENERAL_MIDI));
    expect(found).toMatchObject({ ratio: 1, offbeats: 8 });
  });

  it('leaves out the sixteenths between the eighths', () => {
    const sixteenths = plan({ subdivision: 4, grouping: 'R L K L' });
    expect(playedWith(sixteenths, 30)).toMatchObject({ ratio: 1, offbeats: 16 });
  });

  it('says nothing of a take without notes', () => {
    expect(playedSwing(plan({}), { notes: [], extras: [] })).toBeUndefined();
  });

  it('says nothing where no off-beat eighths are, or the meter counts eighths', () => {
    expect(playedWith(plan({ subdivision: 3, grouping: 'R L L' }), 0)).toBeUndefined();
    expect(playedWith(plan({ meter: '7/8' }), 0)).toBeUndefined();
  });
});
