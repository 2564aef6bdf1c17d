import { capture } from '../../src/capture/capture';
import { playRounds, randomPlayings, type Player } from '../capture/played-rounds';
import { captureInput } from '../capture/transcribed';
import { ClaimCount, type Claim } from './claim';

/** How far the click is said wrongly, as a share of the tempo that was played. */
const WRONG_CLICKS = [0.03, 0.05, 0.07, 0.1];

/**
 * What capture says of `count` random phrases whose click is said too quick or, every other one, too slow: to be sure of
 * tempo and subdivision is wrong each time, to offer another tempo where that is 1 % off the one that was played.
 */
export const wrongClickClaims = (count: number, seed: number, player: Player): readonly Claim[] =>
  WRONG_CLICKS.flatMap((off) => claimsOf(off, count, seed, player));

function claimsOf(off: number, count: number, seed: number, player: Player): readonly Claim[] {
  const click = `click ${Math.round(off * 100)} % off`;
  const sure = new ClaimCount(`sure of the tempo, ${click}`);
  const offers = new ClaimCount(`offers a tempo, ${click}`);
  randomPlayings(count, seed).forEach((playing, k) => {
    const { phrase, tempoBpm } = playing;
    const clickBpm = tempoBpm * (k % 2 === 0 ? 1 + off : 1 - off);
    const strokes = playRounds(playing, player);
    const report = capture(captureInput(strokes, { clickBpm, meter: phrase.meterText }));
    if (!report.ok) return;
    const { findings, inStepBpm } = report.value;
    const isSure = (about: string) => findings.find((one) => one.about === about)!.sure;
    if (isSure('tempo') && isSure('subdivision')) sure.add(true);
    if (inStepBpm !== undefined) offers.add(Math.abs(inStepBpm / tempoBpm - 1) >= 0.01);
  });
  return [sure.claim, offers.claim];
}
