import { LATE, within } from '../../clock/deadline';
import type { SheetPicture } from '../../notation/sheet/engrave-sheet';
import { startEngraver, type EngraverThread } from './kept-engraver';
import { SHEET_FAILURES } from './sheet-failures';
import type { SheetAnswer, SheetJob } from './sheet-job';

/** Engraves one layer at a time on a thread of its own. */
export interface SheetThread {
  /** @throws SheetFailure when it cannot */
  engrave(job: SheetJob): Promise<SheetPicture>;
  /** Ends what it does, if anything; it begins anew when it is asked again. */
  end(): void;
}

/** Why there is no sheet, in a sentence that says what to do. */
export class SheetFailure extends Error {}

/** A layer of 64 full bars takes 4 s on a slow machine, measured; what takes longer than this hangs, ms. Chosen. */
const LONGEST_MS = 30_000;

export function sheetThread(start = startEngraver, longestMs = LONGEST_MS): SheetThread {
  let worker: EngraverThread | undefined;
  let giveUp: ((failure: SheetFailure) => void) | undefined;
  const end = () => {
    worker?.terminate();
    worker = undefined;
    giveUp?.(new SheetFailure(SHEET_FAILURES.hung));
    giveUp = undefined;
  };
  return {
    async engrave(job) {
      const engraver = (worker ??= start());
      const asked = new Promise<SheetAnswer>((resolve, reject) => {
        giveUp = reject;
        engraver.onmessage = ({ data }) => resolve(data);
        engraver.onerror = () => reject(new SheetFailure(SHEET_FAILURES.notStarted));
        engraver.postMessage(job);
      });
      try {
        const answer = await within(longestMs, asked);
        if (answer === LATE) throw new SheetFailure(SHEET_FAILURES.hung);
        if ('problem' in answer) throw new SheetFailure(SHEET_FAILURES.failed(answer.problem));
        giveUp = undefined;
        return answer.picture;
      } catch (error) {
        // Another sheet may have been asked for since this one was ended.
        if (worker === engraver) {
          giveUp = undefined;
          end();
        }
        throw error;
      }
    },
    end,
  };
}
