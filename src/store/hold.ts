import { LATE, within } from '../clock/deadline';

type Locks = Pick<LockManager, 'request'>;

/** Undefined outside a secure context. */
const locksOfBrowser = (): Locks | undefined => navigator.locks;

const nameOf = (what: string) => `layered-phrases.${what}`;

/** Chosen: a page that is busy answers by then; nobody waits for it but what is put in order at the start. */
const ANSWERS_WITHIN_MS = 1000;
const ASK = 'held?';
const ANSWER = 'held';

/** Holds a name, as every page of this origin can see, until the returned function is called or the page is gone. */
export function hold(what: string, locks = locksOfBrowser()): () => void {
  if (!locks) return answerFor(what);
  let isHeld = true;
  let release = (): void => void (isHeld = false);
  locks
    .request(nameOf(what), () => new Promise<void>((done) => (isHeld ? (release = done) : done())))
    .catch(() => (release = answerFor(what)));
  return () => release();
}

/** Whether a page that is still there holds a name. */
export async function isOnHold(what: string, locks = locksOfBrowser()): Promise<boolean> {
  try {
    const isFree = await locks?.request(
      nameOf(what),
      { ifAvailable: true },
      (lock) => lock !== null,
    );
    if (isFree === false) return true;
    if (isFree) return false;
  } catch {
    // Then it is asked for as where there are no locks.
  }
  return isAnswered(what);
}

function answerFor(what: string): () => void {
  const channel = new BroadcastChannel(nameOf(what));
  channel.onmessage = ({ data }) => data === ASK && channel.postMessage(ANSWER);
  return () => channel.close();
}

async function isAnswered(what: string): Promise<boolean> {
  const channel = new BroadcastChannel(nameOf(what));
  const answer = new Promise<void>((resolve) => {
    channel.onmessage = ({ data }) => data === ANSWER && resolve();
  });
  channel.postMessage(ASK);
  const answered = await within(ANSWERS_WITHIN_MS, answer);
  channel.close();
  return answered !== LATE;
}
