import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { storeProblem } from '../../src/store/store-problem';
import { AUDIO_STATES } from '../../src/sound/audio-state';
import { chance } from '../../src/time/chance';
import { phraseOf } from '../phrase/phrase-of';
import { StubCalibration } from '../view/stub-calibration.svelte';
import { StubCapturing } from '../view/stub-capturing';
import { StubInputs } from '../view/stub-inputs.svelte';
import { StubCaptureStore } from '../view/stub-capture-store';
import { StubSession } from '../view/stub-session.svelte';

/** "R L R L K" in sixteenths: an accent on the floor tom, two taps, two ghosts. On the edge-and-rim kit. */
const STROKES = [
  { note: 43, velocity: 112 },
  { note: 38, velocity: 28 },
  { note: 38, velocity: 74 },
  { note: 38, velocity: 30 },
  { note: 36, velocity: 80 },
];
/** "R+K L L R+K L R K L" of which the right hand is on the hi-hat: sixteenths in which a beat is felt. */
const EIGHT = [42, 38, 38, 42, 38, 42, 36, 38].map((note, i) => ({
  note,
  velocity: [100, 30, 30, 100, 30, 70, 80, 30][i]!,
}));
const SEED = 7;

function bench(stored?: StubCaptureStore) {
  const inputs = new StubInputs();
  const session = new StubSession();
  const calibration = new StubCalibration();
  const capturing = new StubCapturing(session, inputs, calibration, stored);
  /** Plays rounds of the five from `fromMs` on, each stroke handed over when its time comes. */
  const playRounds = (
    fromMs: number,
    partialMs: number,
    rounds: number,
    lateMs = 0,
    strokes = STROKES,
  ) => {
    const { normal } = chance(SEED);
    for (let i = 0; i < rounds * strokes.length; i++) {
      const { note, velocity } = strokes[i % strokes.length]!;
      const dueMs = fromMs + i * partialMs;
      if (dueMs > capturing.hand.nowMs) capturing.pass(dueMs - capturing.hand.nowMs);
      inputs.listener!(dueMs + 6 * normal() + lateMs, 0x99, note, velocity);
    }
  };
  return { inputs, session, calibration, capturing, playRounds };
}

const written = (capturing: StubCapturing) => {
  const { outcome } = capturing;
  if (!outcome?.ok) throw new Error(outcome?.errors[0]?.message ?? 'nothing was played');
  return outcome.value;
};
const found = (capturing: StubCapturing, about: string) =>
  written(capturing).findings.find((finding) => finding.about === about)!;

describe(`capture to the click, seed ${SEED}`, () => {
  it('clicks the count-in and on, bar by bar, and writes down what was played', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ way: 'to the click', tempoBpm: 100, meter: '3/4', countInBars: 2 });
    await capturing.start();
    expect(capturing.status).toBe('counting in');
    const beatMs = 600;
    const startMs = 10_000 + 600;
    const bar1Ms = startMs + 6 * beatMs;
    playRounds(bar1Ms, beatMs / 4, 8);
    expect(capturing.status).toBe('listening');
    const clicks = capturing.output.sounds;
    expect(clicks.slice(0, 7).map(({ event }) => event.kind === 'click' && event.sound)).toEqual([
      'bar',
      'beat',
      'beat',
      'bar',
      'beat',
      'beat',
      'bar',
    ]);
    clicks.forEach(({ atSeconds }, k) =>
      expect(atSeconds).toBeCloseTo((startMs + k * beatMs) / 1000, 5),
    );
    capturing.stop();
    const { phrase, rounds } = written(capturing);
    expect(phrase).toMatchObject({ tempoBpm: 100, meterText: '3/4', subdivision: 4, cycle: 5 });
    expect(rounds).toBe(8);
    expect(found(capturing, 'meter position')).toMatchObject({ sure: true });
    expect(capturing.output.closed).toBe(true);
  });

  it('keeps the screen on for as long as it listens', async () => {
    const { capturing } = bench();
    await capturing.start();
    expect(capturing.hand.isScreenOn).toBe(true);
    capturing.stop();
    expect(capturing.hand.isScreenOn).toBe(false);
  });

  it('counts strokes at the pump, and stops by itself after two bars of rest', async () => {
    const { capturing, inputs, playRounds } = bench();
    capturing.choose({ tempoBpm: 120 });
    await capturing.start();
    playRounds(10_600 + 2000, 125, 4);
    expect(capturing.strokes).toBeLessThan(20);
    capturing.pass(60);
    expect([capturing.strokes, capturing.bar]).toEqual([20, 2]);
    capturing.pass(3800);
    expect(capturing.status).toBe('listening');
    capturing.pass(400);
    expect([capturing.status, inputs.listener]).toEqual(['idle', undefined]);
    expect(written(capturing).phrase.cycle).toBe(5);
  });

  it('takes the rig’s offset off, as takes do', async () => {
    const { capturing, calibration, playRounds } = bench();
    calibration.rigs.beginTake = () => 70;
    capturing.choose({ tempoBpm: 120 });
    await capturing.start();
    // 70 ms are more than half a sixteenth: not taken off, every stroke would be a partial late.
    playRounds(10_600 + 2000, 125, 6, 70);
    capturing.stop();
    expect(written(capturing).firstOn).toBe(0);
    const first = capturing.played!.strokes[0]!.timeUs;
    expect(Math.abs(first)).toBeLessThan(25_000);
  });

  it('takes off what an unmeasured rig is late, says so, and leaves the player’s word for the bar alone', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ tempoBpm: 90 });
    await capturing.start();
    playRounds(10_600 + (4 * 60_000) / 90, 60_000 / 90 / 4, 8, 45);
    capturing.stop();
    expect(written(capturing)).toMatchObject({
      phrase: { subdivision: 4, cycle: 5, groupingText: 'R L R L K' },
      firstOn: 0,
    });
    const { sentence, sure } = found(capturing, 'meter position');
    expect(sure).toBe(true);
    const lateMs = Number(/every stroke came about (\d+) ms late/.exec(sentence)![1]);
    // Forty strokes that scatter by 6 ms: their median is known to about a millisecond.
    expect(Math.abs(lateMs - 45)).toBeLessThanOrEqual(4);
    capturing.correct({ firstOn: { partial: 4, subdivision: 4 } });
    expect(written(capturing)).toMatchObject({ phrase: { subdivision: 4, cycle: 5 }, firstOn: 4 });
    capturing.correct({ firstOn: undefined, tempoBpm: 45 });
    expect(written(capturing)).toMatchObject({ phrase: { subdivision: 8, cycle: 5 }, firstOn: 0 });
  });

  it('is not sure of the bar where every stroke lies halfway: late, or early for the next', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ tempoBpm: 90 });
    await capturing.start();
    playRounds(10_600 + (4 * 60_000) / 90, 60_000 / 90 / 4, 8, 84);
    capturing.stop();
    expect(written(capturing).phrase).toMatchObject({ subdivision: 4, cycle: 5 });
    expect(found(capturing, 'meter position').sure).toBe(false);
  });

  it('takes the bar in which somebody begins late for the first', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ tempoBpm: 120 });
    await capturing.start();
    playRounds(10_600 + 2000 + 4000, 125, 6);
    capturing.stop();
    const { phrase, firstOn } = written(capturing);
    expect([phrase.cycle, firstOn]).toEqual([5, 0]);
    expect(phrase.groupingText.split(' ').at(-1)).toBe('K');
    expect(found(capturing, 'meter position').sentence).toContain('in which the first stroke');
  });

  it('does not begin without sound, and says why', async () => {
    const { capturing, inputs } = bench();
    capturing.choose({ way: 'to the click' });
    capturing.hand.sound = AUDIO_STATES.frozen;
    await capturing.start();
    expect(capturing.status).toBe('idle');
    expect(capturing.problem).toBe(`There is no click: ${AUDIO_STATES.frozen.sentence}`);
    expect(inputs.listener).toBeUndefined();
  });
});

describe(`capture without a click, seed ${SEED}`, () => {
  it('finds the tempo, and listens without sound too', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ way: 'free' });
    capturing.hand.sound = AUDIO_STATES.suspended;
    await capturing.start();
    expect([capturing.status, capturing.problem]).toEqual([
      'listening',
      AUDIO_STATES.suspended.sentence,
    ]);
    expect(capturing.output.sounds).toEqual([]);
    playRounds(13_000, 150, 8, 0, EIGHT);
    capturing.pass(4100);
    expect(capturing.status).toBe('idle');
    const { phrase } = written(capturing);
    expect(Math.abs(phrase.tempoBpm / 100 - 1)).toBeLessThan(0.01);
    expect([phrase.subdivision, phrase.cycle]).toEqual([4, 8]);
    expect(found(capturing, 'meter position').sure).toBe(false);
  });

  it('writes the same down at half and double the tempo, in another meter, from another beat', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ way: 'free' });
    await capturing.start();
    playRounds(13_000, 150, 8, 0, EIGHT);
    capturing.stop();
    const { tempoBpm } = written(capturing).phrase;

    capturing.correct({ tempoBpm: tempoBpm / 2 });
    expect(written(capturing).phrase).toMatchObject({
      tempoBpm: expect.closeTo(tempoBpm / 2, 1) as number,
      subdivision: 8,
      cycle: 8,
    });
    expect(found(capturing, 'tempo').sentence).toContain('as you said');
    capturing.correct({ tempoBpm: tempoBpm * 2 });
    expect(written(capturing).phrase).toMatchObject({ subdivision: 2, cycle: 8 });

    capturing.correct({ tempoBpm: undefined, meter: '7/8' });
    expect(written(capturing).phrase).toMatchObject({ meterText: '7/8', cycle: 8 });
    capturing.correct({ meter: undefined, firstOn: { partial: 6, subdivision: 4 } });
    expect(written(capturing).firstOn).toBe(6);
    expect(found(capturing, 'meter position')).toMatchObject({ sure: true });
    capturing.correct({ firstOn: undefined, cyclePartials: 16 });
    expect(written(capturing).phrase.cycle).toBe(16);
    expect(written(capturing).rounds).toBe(4);
    capturing.correct({ tempoBpm: tempoBpm / 2 });
    expect(written(capturing).phrase).toMatchObject({ subdivision: 8, cycle: 16 });
    capturing.correct({ tempoBpm: undefined, cyclePartials: undefined });
    expect(capturing.corrections).toEqual({});
    expect(written(capturing).phrase.tempoBpm).toBe(tempoBpm);
  });

  it('may be told about which tempo it was: the beats are the pulse’s own', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ way: 'free' });
    await capturing.start();
    playRounds(13_000, 150, 8, 0, EIGHT);
    capturing.stop();
    capturing.correct({ tempoBpm: 98 });
    expect(written(capturing).phrase).toMatchObject({ tempoBpm: 98, subdivision: 4, cycle: 8 });
  });

  it('may count the same partials in fives or in fours: one tempo follows from the other', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ way: 'free' });
    await capturing.start();
    playRounds(13_000, 150, 8);
    capturing.stop();
    // 400 partials a minute: quintuplets at 80, sixteenths at 100.
    for (const [tempoBpm, subdivision] of [
      [80, 5],
      [100, 4],
      [133, 3],
      [200, 2],
    ] as const) {
      capturing.correct({ tempoBpm });
      expect(written(capturing).phrase).toMatchObject({ tempoBpm, subdivision, cycle: 5 });
    }
  });
});

describe('what is played and cannot be written down', () => {
  it('takes no place from what was played before when it is a handful of strokes', async () => {
    const { capturing, inputs } = bench();
    capturing.choose({ way: 'free' });
    await capturing.start();
    [0, 500, 1000].forEach((ms) => inputs.listener!(12_000 + ms, 0x99, 38, 80));
    capturing.stop();
    expect(capturing.outcome).toMatchObject({ ok: false });
    expect(capturing.outcome?.ok === false && capturing.outcome.errors[0]).toMatchObject({
      code: 'TOO_FEW_STROKES',
    });
    expect(capturing.played!.strokes).toHaveLength(3);
    expect(capturing.plays).toEqual([]);
    expect(capturing.stored.records.size).toBe(0);
  });

  it('is a handful on known pads and more on unknown ones: kept, until the kit knows them', async () => {
    const { capturing, inputs } = bench();
    capturing.choose({ way: 'free' });
    await capturing.start();
    for (let i = 0; i < 12; i++) inputs.listener!(12_000 + 500 * i, 0x99, i % 4 ? 99 : 38, 80);
    capturing.stop();
    expect(capturing.outcome).toMatchObject({ ok: false, errors: [{ code: 'TOO_FEW_STROKES' }] });
    expect(capturing.plays).toHaveLength(1);
  });

  it('is one round only: said in a sentence, the strokes kept', async () => {
    const { capturing, inputs } = bench();
    capturing.choose({ tempoBpm: 120 });
    await capturing.start();
    [43, 38, 36, 45, 48, 51, 49, 42, 46, 55].forEach((note, i) =>
      inputs.listener!(12_600 + i * 125, 0x99, note, 40 + 8 * i),
    );
    capturing.stop();
    expect(capturing.outcome?.ok === false && capturing.outcome.errors[0]!.message).toMatch(
      /several times round/,
    );
    expect(capturing.played!.strokes).toHaveLength(10);

    capturing.correct({ cyclePartials: 10 });
    expect(written(capturing).phrase.cycle).toBe(10);
    expect(written(capturing).rounds).toBe(1);
    expect(found(capturing, 'cycle')).toMatchObject({
      sure: true,
      sentence: 'The cycle: 10 partials, as you said, once round.',
    });
    expect(found(capturing, 'notes').sure).toBe(false);
  });

  it('stays when the next capture hears nothing, and can be gone back to', async () => {
    const { capturing, inputs, playRounds } = bench();
    capturing.choose({ tempoBpm: 120 });
    await capturing.start();
    playRounds(12_600, 125, 6);
    capturing.stop();
    const first = capturing.played;
    await capturing.start();
    capturing.pass(1000);
    capturing.stop();
    expect(capturing.played).toBe(first);
    expect(capturing.problem).toMatch(/^Nothing was played\./);
    inputs.port.kind = 'unplugged';
    await capturing.start();
    capturing.stop();
    expect(capturing.problem).toContain('is unplugged');
    inputs.port.kind = 'ready';
    expect(capturing.problem).not.toContain('unplugged');

    await capturing.start();
    playRounds(capturing.hand.nowMs + 3000, 125, 4);
    capturing.stop();
    expect(capturing.plays).toHaveLength(2);
    capturing.open(first!);
    expect(written(capturing).rounds).toBe(6);
  });

  it('stays when the kit is unplugged in the middle, and that is told', async () => {
    const { capturing, inputs, playRounds } = bench();
    capturing.choose({ tempoBpm: 120 });
    await capturing.start();
    playRounds(12_600, 125, 6);
    inputs.port.kind = 'unplugged';
    expect(capturing.status).toBe('listening');
    capturing.pass(6000);
    expect(capturing.status).toBe('idle');
    expect(capturing.problem).toBe(
      'Boathouse kit is unplugged. What was played before that is kept.',
    );
    expect(written(capturing).rounds).toBe(6);
    inputs.port.kind = 'ready';
    expect(capturing.problem).toBeUndefined();
  });

  it('is read again once the kit knows its notes', async () => {
    const { capturing, inputs, playRounds } = bench();
    inputs.kit = { ...EDGE_AND_RIM, pads: EDGE_AND_RIM.pads.filter(({ note }) => note !== 43) };
    capturing.choose({ tempoBpm: 120 });
    await capturing.start();
    playRounds(12_600, 125, 6);
    capturing.stop();
    expect([...capturing.played!.unmapped]).toEqual([[43, 6]]);
    inputs.kit = EDGE_AND_RIM;
    capturing.readAgain();
    expect(capturing.played!.unmapped.size).toBe(0);
    expect(written(capturing).phrase.cycle).toBe(5);
    expect(capturing.plays).toHaveLength(1);
  });

  it('is there after a reload, with what was said of it', async () => {
    const stored = new StubCaptureStore();
    const { capturing, playRounds } = bench(stored);
    capturing.choose({ tempoBpm: 120 });
    await capturing.start();
    playRounds(12_600, 125, 6);
    capturing.stop();
    capturing.correct({ cyclePartials: 10, meter: '7/8' });
    const before = written(capturing);

    const { capturing: after } = bench(stored);
    await after.load();
    expect(after.played).toBeUndefined();
    expect(after.plays).toEqual(capturing.plays);
    after.open(after.plays[0]!);
    expect(after.corrections).toEqual({ cyclePartials: 10, meter: '7/8' });
    expect(written(after)).toEqual(before);
  });

  it('keeps what was said of each while another is looked at', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ tempoBpm: 120 });
    for (const rounds of [6, 4]) {
      await capturing.start();
      playRounds(capturing.hand.nowMs + 2600, 125, rounds);
      capturing.stop();
    }
    const [newest, oldest] = capturing.plays;
    capturing.open(oldest!);
    capturing.correct({ cyclePartials: 10 });
    capturing.open(newest!);
    expect(written(capturing).phrase.cycle).toBe(5);
    capturing.open(oldest!);
    expect(written(capturing).phrase.cycle).toBe(10);
  });

  it('is there up to half a second before the browser was killed, and is said to be cut short', async () => {
    const stored = new StubCaptureStore();
    const { capturing, playRounds } = bench(stored);
    capturing.choose({ tempoBpm: 120 });
    await capturing.start();
    playRounds(12_600, 125, 6);
    await expect.poll(() => stored.records.size).toBe(1);
    capturing.pass(500);
    const { capturing: after } = bench(stored);
    await after.load();
    expect(after.plays.map(({ strokes, isCutShort }) => [strokes.length, isCutShort])).toEqual([
      [30, true],
    ]);
    capturing.stop();
    expect([...stored.records.values()].map(({ isCutShort }) => isCutShort)).toEqual([false]);
  });

  it('is told where it cannot be kept, and no longer once it can', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ tempoBpm: 120 });
    capturing.stored.problem = storeProblem('FULL');
    await capturing.start();
    playRounds(12_600, 125, 6);
    capturing.stop();
    await expect.poll(() => capturing.notKept).toMatch(/only until this page is closed\. The disk/);
    expect(written(capturing).rounds).toBe(6);
    capturing.stored.problem = undefined;
    capturing.correct({ cyclePartials: 10 });
    await expect.poll(() => capturing.notKept).toBeUndefined();
    expect(capturing.stored.records.size).toBe(1);
  });

  it('has each write that failed told at once, and written again without another stroke', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ tempoBpm: 120 });
    await capturing.start();
    playRounds(12_600, 125, 2);
    await expect.poll(() => capturing.stored.records.size).toBe(1);
    capturing.stored.problem = storeProblem('FULL');
    playRounds(12_600 + 10 * 125, 125, 4);
    capturing.pass(500);
    await expect.poll(() => capturing.notKept).toMatch(/only until this page is closed\. The disk/);
    expect(capturing.status).toBe('listening');
    capturing.pass(500);
    await new Promise((resolve) => setTimeout(resolve));
    capturing.stored.problem = undefined;
    capturing.pass(500);
    await expect.poll(() => capturing.notKept).toBeUndefined();
    const [kept] = (await capturing.stored.newest(1)).map(({ take }) => take.messages.length);
    expect(kept).toBe(30);
    capturing.stop();
  });

  it('is written down at once where the page may be left', async () => {
    const { capturing, inputs, playRounds } = bench();
    capturing.choose({ tempoBpm: 120 });
    await capturing.start();
    playRounds(12_600, 125, 2);
    capturing.pass(500);
    inputs.listener!(capturing.hand.nowMs, 0x99, 38, 80);
    capturing.flush();
    await expect
      .poll(async () => (await capturing.stored.newest(1))[0]?.take.messages.length)
      .toBe(11);
  });

  it('is no longer said to go with the page once it is stored after all', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ tempoBpm: 120 });
    capturing.stored.problem = storeProblem('FULL');
    await capturing.start();
    playRounds(12_600, 125, 6);
    capturing.stop();
    await expect.poll(() => capturing.notKept).toMatch(/The disk/);
    capturing.stored.problem = undefined;
    capturing.stored.storedLater();
    expect(capturing.notKept).toBeUndefined();
  });

  it('is dropped where it is damaged, and takes nothing else with it', async () => {
    const stored = new StubCaptureStore();
    const { capturing, playRounds } = bench(stored);
    capturing.choose({ tempoBpm: 120 });
    for (const rounds of [3, 4, 5]) {
      await capturing.start();
      playRounds(capturing.hand.nowMs + 2600, 125, rounds);
      capturing.stop();
    }
    const [first, second] = stored.records.values();
    stored.records.set(first!.id, { ...first!, kitText: 'harbour' });
    stored.records.set(second!.id, { ...second!, said: { tempoBpm: 'fast' } });
    const { capturing: after } = bench(stored);
    await after.load();
    expect(after.plays.map(({ strokes }) => strokes.length)).toEqual([25, 20]);
    after.open(after.plays[1]!);
    expect(after.corrections).toEqual({});
  });

  it('is the newest ten', async () => {
    const { capturing, playRounds } = bench();
    capturing.choose({ tempoBpm: 120 });
    for (let rounds = 3; rounds < 15; rounds++) {
      await capturing.start();
      playRounds(capturing.hand.nowMs + 2600, 125, rounds);
      capturing.stop();
    }
    const lengths = capturing.plays.map(({ strokes }) => strokes.length / 5);
    expect(lengths).toEqual([14, 13, 12, 11, 10, 9, 8, 7, 6, 5]);
    await expect.poll(() => capturing.stored.records.size).toBe(10);
  });

  it('is a file that cannot be read: the sentence names it', async () => {
    const { capturing } = bench();
    await capturing.readFile(new File(['no music'], 'harbour.mid'));
    expect(capturing.problem).toMatch(
      /^harbour\.mid could not be read\. At byte 0: this is not a Standard MIDI File/,
    );
    expect(capturing.played).toBeUndefined();
  });
});

describe('who plays by himself', () => {
  it('is followed: a file or the simulated player has eight rounds, bar 1 where it is heard', async () => {
    const { capturing, inputs, session } = bench();
    inputs.player = 'simulated player';
    const phrase = phraseOf({ grouping: 'R L K' });
    session.entry = { id: 'three', phrase, text: '', own: true };
    capturing.choose({ way: 'to the click', tempoBpm: 120 });
    await capturing.start();
    capturing.pass(100);
    expect(inputs.followed!.originMs).toBe(10_600 + 2000);
    expect(inputs.followed!.timeline.notes).toHaveLength(8 * 3);
    capturing.stop();
    expect(inputs.followed).toBeUndefined();
  });
});
