import { tracedMessages } from '../../../practice/inputs/traced-messages';
import type { AppParts } from '../../app-context';
import type { Look } from './look';

/** Marks the form of the file: raise it when the meaning of a key changes. */
const FORM = 1;

/** What the page knows of browser and screen: nothing of the person. */
export const browserFacts = () => ({
  browser: navigator.userAgent,
  processors: navigator.hardwareConcurrency,
  window: `${innerWidth} × ${innerHeight}`,
  screen: `${screen.width} × ${screen.height}`,
  pixelsPerPoint: devicePixelRatio,
  reducedMotion: matchMedia('(prefers-reduced-motion: reduce)').matches,
  crossOriginIsolated,
  wakeLock: 'wakeLock' in navigator,
});

type BrowserFacts = ReturnType<typeof browserFacts>;

/**
 * Everything the page shows and all messages of the trace, for somebody who helps. Times are
 * milliseconds on the page's performance clock; the bytes are as they came.
 */
export function kitReport(
  { inputs, session }: Pick<AppParts, 'inputs' | 'session'>,
  look: Look,
  facts: BrowserFacts,
  outputName: string | undefined,
  today: string,
): string {
  const { port, monitor, player, playedKit } = inputs;
  const report = {
    whatTheKitSends: FORM,
    savedAt: today,
    browserAndScreen: facts,
    midi: {
      state: port.state.kind,
      sentence: port.state.sentence,
      ports: port.ports.map(({ id, name }) => ({ name, chosen: id === port.chosen })),
      unstampedMessages: look.unstamped,
    },
    sound: { ...look.heard.sound, output: outputName ?? null },
    clocks: { ...look.heard.clocks, residuals: look.heard.residuals },
    framesMs: look.frames,
    deliveryMs: look.delivery,
    practice: {
      player,
      status: session.status,
      tempoBpm: session.choices.tempoBpm,
      windows: session.choices.windows,
      notices: session.notices,
      problem: session.problem ?? null,
    },
    kit: playedKit,
    pads: look.pads,
    faults: monitor.faults,
    messages: tracedMessages(monitor.trace).map(
      ({ stampMs, delayMs, bytes, voice, openness, setAside }) => ({
        stampMs,
        delayMs,
        bytes,
        voice: voice ?? null,
        openness: openness ?? null,
        setAside: setAside || null,
      }),
    ),
  };
  return `${JSON.stringify(report, toMicroseconds)}\n`;
}

/** No clock here tells more than microseconds. */
const toMicroseconds = (_key: string, value: unknown): unknown =>
  typeof value === 'number' ? Math.round(value * 1000) / 1000 : value;
