import keeperUrl from './engraver-keeper-worker?worker&url';
import { NOT_STARTED, type EngraverOrder } from './engraver-order';
import type { SheetAnswer, SheetJob } from './sheet-job';
import programUrl from './sheet-worker?worker&url';

/** A thread that engraves. */
export interface EngraverThread {
  onmessage: ((event: { readonly data: SheetAnswer }) => void) | null;
  /** It does not start. */
  onerror: (() => void) | null;
  postMessage(job: SheetJob): void;
  terminate(): void;
}

/** Takes orders; it has the program. */
type Keeper = (order: EngraverOrder, handedOver?: readonly Transferable[]) => void;

let keeper: Promise<Keeper> | undefined;

/**
 * Fetches what engraves and keeps it: from then on sheets need no connection, also where the browser itself keeps nothing.
 * What did not come is fetched again when it is asked for again.
 */
export function keepEngraver(): Promise<Keeper> {
  return (keeper ??= fetchProgram().catch((failure: unknown) => {
    keeper = undefined;
    throw failure;
  }));
}

async function fetchProgram(): Promise<Keeper> {
  const answer = await fetch(programUrl);
  if (!answer.ok) throw new Error(`${answer.status}`);
  const program = await answer.blob();
  const thread = new Worker(keeperUrl, { type: 'module' });
  const tell: Keeper = (order, handedOver = []) => thread.postMessage(order, [...handedOver]);
  await new Promise((kept, failed) => {
    thread.onmessage = kept;
    thread.onerror = failed;
    tell({ program });
  });
  return tell;
}

/** Starts the engraver that is kept; of two the one before ends. */
export function startEngraver(): EngraverThread {
  const { port1: here, port2: there } = new MessageChannel();
  const ended = new AbortController();
  const thread: EngraverThread = {
    onmessage: null,
    onerror: null,
    postMessage: (job) => here.postMessage(job),
    terminate: () => ended.abort(),
  };
  here.onmessage = ({ data }: MessageEvent<SheetAnswer | typeof NOT_STARTED>) =>
    data === NOT_STARTED ? thread.onerror?.() : thread.onmessage?.({ data });
  const start = (tell: Keeper) => {
    if (ended.signal.aborted) return;
    tell({ startAt: there }, [there]);
    ended.signal.addEventListener('abort', () => tell({ end: true }));
  };
  keepEngraver().then(start, () => thread.onerror?.());
  ended.signal.addEventListener('abort', () => here.close());
  return thread;
}
