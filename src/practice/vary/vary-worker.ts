import { outcomeOf, type TwistJob } from '../../phrase/vary/outcome';
import { proposalsOf, type ProposalsJob } from '../../phrase/vary/proposals';

onmessage = ({ data }: MessageEvent<TwistJob | ProposalsJob>) =>
  postMessage(data.ask === 'twist' ? outcomeOf(data) : proposalsOf(data));
