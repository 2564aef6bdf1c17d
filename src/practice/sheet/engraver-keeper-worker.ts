import { NOT_STARTED, type EngraverOrder } from './engraver-order';

// The program has an address of its own here, which needs no connection. What is started from such an address is under the
// policy of whoever made it: the page's forbids WebAssembly, which the engraver is made of, and this thread has none.

let address = '';
let engraver: Worker | undefined;

function start(at: MessagePort): void {
  engraver?.terminate();
  const started = new Worker(address, { type: 'module' });
  started.onmessage = ({ data }) => at.postMessage(data);
  started.onerror = () => at.postMessage(NOT_STARTED);
  at.onmessage = ({ data }) => started.postMessage(data);
  engraver = started;
}

onmessage = ({ data }: MessageEvent<EngraverOrder>) => {
  if ('startAt' in data) return start(data.startAt);
  if ('end' in data) return engraver?.terminate();
  address = URL.createObjectURL(data.program);
  postMessage('kept');
};
