import type { AppParts } from '../app-context';

const recoveredWords = (count: number) =>
  count === 0
    ? undefined
    : count === 1
      ? 'A take was cut short last time. It is in the log, as far as it was played.'
      : `${count} takes were cut short. They are in the log, as far as they were played.`;

const damagedWords = (count: number) =>
  count === 0
    ? undefined
    : `${count === 1 ? '1 entry' : `${count} entries`} of what is kept on this machine cannot be read; What is kept, in the Log, has more.`;

/** What has gone wrong or has to be known on every screen, a sentence each, as it is now. */
export const standingNotices = (app: AppParts): string[] =>
  [
    app.session.problem,
    app.isComplete ? app.audition.problem : undefined,
    ...app.session.notices,
    ...app.calibration.rigs.notices,
    ...(app.isComplete ? [...app.compositions.notices, ...app.opening.notices] : []),
    app.inputs.player === 'kit' ? app.inputs.port.secondKit : undefined,
    app.storeNotice.current?.message,
    app.takes.problem?.message,
    recoveredWords(app.takes.recovered),
    damagedWords(app.damaged.all.length),
  ].filter((notice) => notice !== undefined);
