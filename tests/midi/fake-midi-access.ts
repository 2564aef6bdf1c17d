/** Ports that a test plugs, unplugs and plays: no hardware, no permission. */
export interface FakeMidi {
  requestMIDIAccess(this: void, options?: { sysex?: boolean }): Promise<MIDIAccess>;
  /** How often access was asked for, and whether system exclusive ever was. */
  readonly requests: number;
  readonly sysexAsked: boolean;
  plug(id: string, name: string, manufacturer?: string): void;
  unplug(id: string): void;
  /** The port comes back as the same object, as browsers do within one page. */
  replug(id: string): void;
  /** A message with its time stamp; true when somebody listened. */
  emit(id: string, bytes: readonly number[], timeStamp: number): boolean;
  /** Access is refused with an error of this name until called with undefined. */
  refuse(errorName: string | undefined): void;
  /** Opening the port fails: another program holds it. */
  hold(id: string, held: boolean): void;
  /** Whether changes are told at all: Firefox stays silent. */
  silent: boolean;
}

/**
 * A Web MIDI access whose changes are told asynchronously, as browsers do. It uses nothing outside
 * itself, so that its text can be put into a page: see `fakeMidiScript`.
 */
export function createFakeMidi(): FakeMidi {
  type Port = Record<string, unknown> & {
    state: string;
    connection: string;
    held: boolean;
    onstatechange: ((event: object) => void) | null;
    onmidimessage: ((event: object) => void) | null;
  };
  const known = new Map<string, Port>();
  const inputs = new Map<string, Port>();
  const access = {
    inputs,
    outputs: new Map<string, Port>(),
    sysexEnabled: false,
    onstatechange: null as ((event: object) => void) | null,
  };
  let refusal: string | undefined;

  const tell = (port: Port) => {
    const { state, connection } = port;
    setTimeout(() => {
      if (fake.silent || port.state !== state || port.connection !== connection) return;
      port.onstatechange?.({ port, timeStamp: performance.now() });
      access.onstatechange?.({ port, timeStamp: performance.now() });
    }, 0);
  };
  const connect = (port: Port, connection: string) => {
    if (port.connection === connection) return;
    port.connection = connection;
    tell(port);
  };
  const createPort = (id: string, name: string, manufacturer: string): Port => {
    let handler: ((event: object) => void) | null = null;
    const port = {
      id,
      name,
      manufacturer,
      version: '1',
      type: 'input',
      state: 'connected',
      connection: 'closed',
      held: false,
      onstatechange: null,
      get onmidimessage() {
        return handler;
      },
      set onmidimessage(next) {
        handler = next;
        if (next) void port.open().catch(() => undefined);
      },
      async open() {
        if (port.held) throw new DOMException('Port is not available', 'InvalidAccessError');
        connect(port, port.state === 'connected' ? 'open' : 'pending');
        return port;
      },
      async close() {
        connect(port, 'closed');
        return port;
      },
    } as Port & { open(): Promise<Port> };
    return port;
  };

  const fake = {
    requests: 0,
    sysexAsked: false,
    silent: false,
    async requestMIDIAccess(options?: { sysex?: boolean }) {
      fake.requests++;
      fake.sysexAsked ||= options?.sysex === true;
      await new Promise((resolve) => setTimeout(resolve, 1));
      if (refusal !== undefined) throw new DOMException('refused', refusal);
      return access as unknown as MIDIAccess;
    },
    plug(id: string, name: string, manufacturer = '') {
      const port = createPort(id, name, manufacturer);
      known.set(id, port);
      inputs.set(id, port);
      tell(port);
    },
    unplug(id: string) {
      const port = known.get(id)!;
      inputs.delete(id);
      port.state = 'disconnected';
      port.connection = port.connection === 'open' ? 'pending' : 'closed';
      tell(port);
    },
    replug(id: string) {
      const port = known.get(id)!;
      inputs.set(id, port);
      port.state = 'connected';
      if (port.connection === 'pending') port.connection = 'open';
      tell(port);
    },
    emit(id: string, bytes: readonly number[], timeStamp: number) {
      const port = known.get(id);
      if (port?.state !== 'connected' || port.connection !== 'open' || !port.onmidimessage)
        return false;
      port.onmidimessage({ data: Uint8Array.from(bytes), timeStamp, target: port });
      return true;
    },
    refuse(errorName: string | undefined) {
      refusal = errorName;
    },
    hold(id: string, held: boolean) {
      known.get(id)!.held = held;
    },
  };
  return fake;
}

/** Text to run in a page before its own scripts: puts the fake at `window.fakeMidi` and in the browser's place. */
export const fakeMidiScript = (): string =>
  `window.fakeMidi = (${createFakeMidi.toString()})();
   Object.defineProperty(navigator, 'requestMIDIAccess', {
     configurable: true, value: window.fakeMidi.requestMIDIAccess });`;
