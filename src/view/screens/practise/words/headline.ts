import type { AppParts } from '../../../app-context';
import type { LiveStats } from '../../../../live/live-stats';
import { nextLayer } from '../../../../phrase/layers/next-layer';
import { keyTo } from '../key-to';
import { feedbackWords, type FeedbackLine } from './feedback-words';
import { moveSentences } from './move-sentences';
import { passedWords } from './passed-words';

/** The one sentence that counts now, and what to do about it with sticks in hand: a lost place before all, then a pass. */
export function headline(app: AppParts, stats: LiveStats | undefined): FeedbackLine {
  const { session, inputs } = app;
  const { placeHelp, phrase, justPassed, upcoming, layer, status } = session;
  const key = (command: Parameters<typeof keyTo>[1]) => {
    const printed = keyTo(app, command);
    return printed === undefined ? [] : [`${printed}: ${command}`];
  };
  if (placeHelp?.sentence !== undefined)
    return {
      sentence: placeHelp.sentence,
      advice: placeHelp.isOffered
        ? [...key('wait for me'), ...key('bring me back')].join(' · ')
        : moveSentences(upcoming).join(' '),
    };
  if (phrase && justPassed !== undefined) {
    const isMovingOn = layer !== justPassed;
    const isLast = nextLayer(phrase, justPassed) === undefined;
    return {
      sentence: passedWords(phrase, justPassed, isMovingOn ? layer : undefined),
      advice: isMovingOn
        ? ''
        : [...(isLast ? [] : key('next layer')), ...key('faster')].join(' · '),
    };
  }
  return feedbackWords(stats, status !== 'idle', inputs);
}
