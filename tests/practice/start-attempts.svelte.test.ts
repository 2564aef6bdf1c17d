import { describe, expect, it } from 'vitest';
import { Audition } from '../../src/practice/audition.svelte';
import { MicrophoneCalibration } from '../../src/practice/calibration/microphone-calibration.svelte';
import { PlayedCalibration } from '../../src/practice/calibration/played-calibration.svelte';
import { Capturing } from '../../src/practice/capture/capturing.svelte';
import { SettingsStore } from '../../src/store/settings-store';
import { bad, good } from '../../src/time/result';
import { phraseOf } from '../phrase/phrase-of';
import { handPage } from './hand-page';

/** A page whose pump throws until it is mended. */
function hindered() {
  const hand = handPage();
  let isMended = false;
  const pump = (onTick: () => void) => {
    if (!isMended) throw new Error('no room for a worker');
    return hand.dependencies.pump(onTick);
  };
  return { dependencies: { ...hand.dependencies, pump }, mend: () => (isMended = true) };
}

const capturingWith = (dependencies: ReturnType<typeof hindered>['dependencies']) =>
  new Capturing({
    ...dependencies,
    settings: new SettingsStore(null),
    plays: {
      put: async () => bad(),
      newest: async () => [],
      onStoredLater: () => undefined,
      remove: async () => undefined,
    },
    practised: () => undefined,
    stopOthers: async () => undefined,
  } as never);

/** A page whose sound fails to start the first time, once it is told to, and starts from then on. */
function failingLate() {
  const { dependencies, mend } = hindered();
  mend();
  let fail = () => undefined as void;
  const failing = new Promise<never>((_resolve, reject) => {
    fail = () => reject(new Error('no sound'));
  });
  let starts = 0;
  const { start } = dependencies.engine;
  Object.assign(dependencies.engine, { start: () => (starts++ === 0 ? failing : start()) });
  return { dependencies, fail: () => fail() };
}

const SENTENCE =
  /^(The sound|The measurement|Listening) was not started, since something failed: no room for a worker\. Start again/;

describe('what throws while something starts', () => {
  it('is told of what is heard, which can be tried again', async () => {
    const { dependencies, mend } = hindered();
    const audition = new Audition(dependencies);
    await audition.play('a', { phrase: phraseOf({ grouping: 'R L' }) });
    expect(audition.problem).toMatch(SENTENCE);
    expect(audition.key).toBeUndefined();
    mend();
    await audition.play('a', { phrase: phraseOf({ grouping: 'R L' }) });
    expect([audition.key, audition.problem]).toEqual(['a', undefined]);
    audition.stop();
  });

  it('is told of a measurement, which can be tried again', async () => {
    const { dependencies, mend } = hindered();
    const played = new PlayedCalibration(dependencies);
    await played.begin();
    expect(played.problem).toMatch(SENTENCE);
    expect(played.phase).toBe('idle');
    mend();
    await played.begin();
    expect([played.phase, played.problem]).toEqual(['playing', undefined]);
    played.stop();
  });

  it('is told of a measurement by microphone, whose recording ends', async () => {
    const { dependencies } = hindered();
    let stopped = 0;
    const record = async () => good({ isProcessed: false, stop: () => void stopped++ as never });
    const microphone = new MicrophoneCalibration({ ...dependencies, record });
    await microphone.begin();
    expect(microphone.problem).toMatch(SENTENCE);
    expect([microphone.phase, stopped]).toEqual(['idle', 1]);
  });

  it('is told of listening, which can be tried again', async () => {
    const { dependencies, mend } = hindered();
    const capturing = capturingWith(dependencies);
    capturing.choose({ way: 'to the click' });
    await capturing.start();
    expect(capturing.problem).toMatch(SENTENCE);
    expect(capturing.status).toBe('idle');
    mend();
    await capturing.start();
    expect([capturing.status, capturing.problem]).toEqual(['counting in', undefined]);
    capturing.stop();
  });
});

describe('a start that is given up and fails late', () => {
  it('ends nothing that is heard in its place, be it the same', async () => {
    for (const key of ['a', 'b']) {
      const { dependencies, fail } = failingLate();
      const audition = new Audition(dependencies);
      const first = audition.play('a', { phrase: phraseOf({ grouping: 'R L' }) });
      await audition.play(key, { phrase: phraseOf({ grouping: 'R L' }) });
      fail();
      await first;
      expect([audition.key, audition.problem]).toEqual([key, undefined]);
      audition.stop();
    }
  });

  it('ends no measurement that was begun in its place', async () => {
    const { dependencies, fail } = failingLate();
    const played = new PlayedCalibration(dependencies);
    const first = played.begin();
    played.stop();
    await played.begin();
    fail();
    await first;
    expect([played.phase, played.problem]).toEqual(['playing', undefined]);
    played.stop();
  });

  it('ends no measurement by microphone that was begun in its place', async () => {
    const { dependencies, fail } = failingLate();
    const record = async () => good({ isProcessed: false, stop: () => undefined as never });
    const microphone = new MicrophoneCalibration({ ...dependencies, record });
    const first = microphone.begin();
    microphone.stop();
    await microphone.begin();
    fail();
    await first;
    expect([microphone.phase, microphone.problem]).toEqual(['recording', undefined]);
    microphone.stop();
  });

  it('ends no listening that was begun in its place', async () => {
    const { dependencies, fail } = failingLate();
    const capturing = capturingWith(dependencies);
    capturing.choose({ way: 'to the click' });
    const first = capturing.start();
    // As far as the sound, which it waits for.
    await Promise.resolve();
    capturing.stop();
    await capturing.start();
    fail();
    await first;
    expect([capturing.status, capturing.problem]).toEqual(['counting in', undefined]);
    capturing.stop();
  });
});
