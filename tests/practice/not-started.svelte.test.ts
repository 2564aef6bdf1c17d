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

  it('ends nothing that is heard in its place by then', async () => {
    const { dependencies, mend } = hindered();
    let fail = () => undefined as void;
    const failing = new Promise<never>((_resolve, reject) => {
      fail = () => reject(new Error('no room for a worker'));
    });
    let starts = 0;
    const { start } = dependencies.engine;
    Object.assign(dependencies.engine, { start: () => (starts++ === 0 ? failing : start()) });
    mend();
    const audition = new Audition(dependencies);
    const first = audition.play('a', { phrase: phraseOf({ grouping: 'R L' }) });
    await audition.play('b', { phrase: phraseOf({ grouping: 'R L' }) });
    fail();
    await first;
    expect([audition.key, audition.problem]).toEqual(['b', undefined]);
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
    const capturing = new Capturing({
      ...dependencies,
      settings: new SettingsStore(undefined),
      plays: {
        put: async () => bad(),
        newest: async () => [],
        onStoredLater: () => undefined,
        remove: async () => undefined,
      },
      practised: () => undefined,
      stopOthers: async () => undefined,
    } as never);
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
