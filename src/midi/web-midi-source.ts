import type { WebMidi as WebMidiOfPackage } from 'webmidi';
import { messageTime } from './message-time';
import { MIDI_STATES, stateOfRefusal, type MidiStateKind } from './midi-problems';
import { isThroughPort, portMemory, recallPort, type PortMemory } from './port-memory';
import type { StrokeSink, StrokeSource } from './stroke-source';
import { createSubscribers } from './subscribers';

/** A MIDI input to choose from. */
export interface PortChoice {
  readonly id: string;
  readonly name: string;
}

export interface WebMidiState {
  readonly kind: MidiStateKind;
  readonly sentence: string;
  readonly remedy: string;
}

export interface WebMidiSource extends StrokeSource {
  readonly state: WebMidiState;
  readonly ports: readonly PortChoice[];
  /** Id of the port listened to, or of the one waited for; undefined before any is chosen. */
  readonly chosen: string | undefined;
  /** The name of another port that was struck while one is listened to; its strokes are left out. */
  readonly secondKit: string | undefined;
  /** Messages whose own stamp could not be believed: they have the time they were handled. */
  readonly unstamped: number;
  /** Asks the browser for MIDI; call it from a click. Safe to call twice. */
  enable(): Promise<void>;
  /** Asks only if the browser has allowed it before: for the start of the page. */
  enableIfAllowed(): Promise<void>;
  choose(id: string): Promise<void>;
  /** Lets go of the ports. */
  close(): Promise<void>;
}

export interface WebMidiOptions {
  /** The port of last time. */
  readonly remembered?: PortMemory | undefined;
  /** Called with what to remember when the player chooses a port. */
  readonly remember?: (memory: PortMemory) => void;
  readonly requestAccess?: (options: MIDIOptions) => Promise<MIDIAccess>;
  /** Whether the browser has allowed MIDI before, as far as it tells. */
  readonly permission?: () => Promise<string>;
  readonly nowMs?: () => number;
}

/** The package apart: the first paint does not wait for it. */
export const loadWebMidi = () => import('webmidi');

/** Firefox never says that a device came or went (bug 1802149): its list is looked at this often. */
const POLL_MS = 1000;

const listed = (ports: readonly MIDIInput[]): string => ports.map(({ id }) => id).join('\n');

const requestOfBrowser = (): WebMidiOptions['requestAccess'] =>
  'requestMIDIAccess' in navigator
    ? (options: MIDIOptions) => navigator.requestMIDIAccess(options)
    : undefined;
const permissionOfBrowser = async (): Promise<string> =>
  (await navigator.permissions.query({ name: 'midi' })).state;

/**
 * The kit on a MIDI port. webmidi asks for access (never for system exclusive) and keeps the ports over
 * plugging and unplugging; the bytes are taken from the chosen port itself, by its one
 * `onmidimessage`, so that a port can never be listened to twice and nothing is allocated for
 * the clock and sensing bytes that modules send all the time. Make one of these for a page.
 */
export function createWebMidiSource(options: WebMidiOptions = {}): WebMidiSource {
  const requestAccess = options.requestAccess ?? requestOfBrowser();
  const permission = options.permission ?? permissionOfBrowser;
  const nowMs = options.nowMs ?? (() => performance.now());
  const { subscribe, tell } = createSubscribers();
  /** Loaded when MIDI is asked for. */
  let webMidi: typeof WebMidiOfPackage | undefined;
  let remembered = options.remembered;
  let sink: StrokeSink | undefined;
  let enabling: Promise<void> | undefined;
  let port: MIDIInput | undefined;
  let polling: ReturnType<typeof setInterval> | undefined;
  let kind: MidiStateKind = requestAccess ? 'ask' : 'unsupported';
  let unstamped = 0;
  /** Another port, once it was struck. */
  let struck: MIDIInput | undefined;
  /** When the page was awake: at the last two looks. After a standstill the last may come amid what waited. */
  let awakeMs = nowMs();
  let awakeBeforeMs = awakeMs;
  /** The ports at the last look. */
  let seen = '';

  /** webmidi hands the browser's own ports on, under types of its own. */
  const inputs = (): MIDIInput[] =>
    webMidi?.enabled
      ? [...(webMidi.interface as unknown as MIDIAccess).inputs.values()].filter(
          ({ state }) => state === 'connected',
        )
      : [];

  function become(next: MidiStateKind): void {
    kind = next;
    tell();
  }

  /** The live path: called for every byte the port sends. */
  function onMessage(event: MIDIMessageEvent): void {
    const data = event.data;
    const status = data?.[0];
    if (!data || status === undefined || status >= 0xf0 || !sink) return;
    const now = nowMs();
    let timeMs = messageTime(event.timeStamp, now, awakeBeforeMs);
    if (Number.isNaN(timeMs)) {
      unstamped++;
      timeMs = now;
    }
    sink(timeMs, status, data[1] ?? 0, data[2] ?? 0);
  }

  /**
   * Hears of another port only whether it is a kit; while none is listened to, the one that is struck is chosen. webmidi
   * holds all of them open as it is.
   */
  function watch(other: MIDIInput): void {
    other.onmidimessage = ({ data }) => {
      const isStroke = data && data[0]! >> 4 === 9 && data[2]! > 0;
      if (!isStroke || !sink || struck === other) return;
      if (!port) return void choose(other);
      struck = other;
      tell();
    };
  }

  async function choose(next: MIDIInput): Promise<void> {
    remembered = portMemory(inputs(), next);
    options.remember?.(remembered);
    await listenTo(next);
  }

  async function listenTo(next: MIDIInput): Promise<void> {
    if (port && port !== next) watch(port);
    port = next;
    struck = undefined;
    next.onmidimessage = onMessage;
    try {
      await next.open();
    } catch {
      if (port === next) become('busy');
      return;
    }
    if (port === next) become('ready');
  }

  /** Looks at the ports that are there now; the same again changes nothing. */
  function refresh(): void {
    const there = inputs();
    seen = listed(there);
    for (const other of there) if (other !== port && !isThroughPort(other)) watch(other);
    if (struck && !there.includes(struck)) struck = undefined;
    if (port && there.includes(port)) {
      if (kind === 'unplugged') void listenTo(port);
      else tell();
      return;
    }
    const kits = there.filter((one) => !isThroughPort(one));
    const known = remembered ? recallPort(there, remembered) : undefined;
    const only = !port && kits.length === 1 ? kits[0] : undefined;
    const next = known ?? only;
    if (next) {
      remembered ??= portMemory(there, next);
      void listenTo(next);
    } else if (port) become('unplugged');
    else become(kits.length === 0 ? 'no device' : 'choose');
  }

  async function request(): Promise<void> {
    become('asking');
    try {
      ({ WebMidi: webMidi } = await loadWebMidi());
      await webMidi.enable({ sysex: false, requestMIDIAccessFunction: requestAccess! });
    } catch (error) {
      // one busy port makes the whole of it fail, though the other ports are there
      if (!webMidi?.enabled) {
        enabling = undefined;
        return become(stateOfRefusal(error));
      }
    }
    webMidi.addListener('portschanged', refresh);
    polling = setInterval(pollPorts, POLL_MS);
    refresh();
  }

  const enable = (): Promise<void> =>
    requestAccess ? (enabling ??= request()) : Promise.resolve();

  function pollPorts(): void {
    awakeBeforeMs = awakeMs;
    awakeMs = nowMs();
    if (listed(inputs()) !== seen) refresh();
  }

  return {
    name: 'MIDI kit',
    kit: undefined,
    get state() {
      const { sentence, remedy } = MIDI_STATES[kind];
      return { kind, sentence: sentence.replace('{port}', port?.name ?? 'the kit'), remedy };
    },
    get ports() {
      return inputs().map(({ id, name }) => ({ id, name: name ?? 'unnamed port' }));
    },
    get chosen() {
      return port?.id;
    },
    get secondKit() {
      return port && struck ? (struck.name ?? 'an unnamed port') : undefined;
    },
    get unstamped() {
      return unstamped;
    },
    enable,
    async enableIfAllowed() {
      if (!requestAccess) return;
      const allowed = await permission().catch(() => 'prompt');
      if (allowed === 'granted') await enable();
    },
    async choose(id) {
      const next = inputs().find((one) => one.id === id);
      if (next) await choose(next);
    },
    start(next) {
      sink = next;
    },
    stop() {
      sink = undefined;
    },
    subscribe,
    async close() {
      clearInterval(polling);
      if (port) port.onmidimessage = null;
      port = undefined;
      enabling = undefined;
      if (webMidi?.enabled) await webMidi.disable();
      become(requestAccess ? 'ask' : 'unsupported');
    },
  };
}
