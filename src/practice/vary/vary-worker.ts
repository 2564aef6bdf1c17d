import { outcomeOf, type TwistJob } from './outcome';
import { proposalsOf, type ProposalsJob } from './proposals';

onmessage = ({ data }: MessageEvent<TwistJob | ProposalsJob>) =>
  postMessage(data.ask === 'twist' ? outcomeOf(data) : proposalsOf(data));
