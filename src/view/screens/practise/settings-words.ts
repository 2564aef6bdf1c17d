import type { SessionParts } from '../../app-context';
import { countInWords } from '../../figures/number-words';

type Settings = Pick<SessionParts, 'click' | 'reference' | 'countInBars' | 'moveOn' | 'stillPage'>;

/** The settings in force, in one line. */
export function settingsWords(settings: Settings): string {
  const { click, reference, countInBars, moveOn, stillPage } = settings;
  const follow = click.follows === 'both' ? 'meter and cycle' : `the ${click.follows}`;
  const beats =
    click.beats === 'all'
      ? ''
      : click.beats === 'first of the bar'
        ? ', first of the bar'
        : `, on ${click.beats}`;
  const clicks =
    reference === 'alone' || click.beats === 'none' ? 'no click' : `click on ${follow}${beats}`;
  return [
    clicks,
    reference === 'off' ? 'written voices off' : `written voices ${reference}`,
    countInBars === 0 ? 'no count-in' : `count-in ${countInWords(countInBars, 'bar')}`,
    moveOn ? 'moves on by itself' : 'stays on the layer',
    ...(stillPage ? ['still page'] : []),
  ].join(' · ');
}
