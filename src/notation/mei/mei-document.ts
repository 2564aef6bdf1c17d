import type { Score, ScoreBar, StaffVoice } from '../score/score';
import { meiAnchors } from './mei-anchors';
import { footRestLoc, meiVoice, type MeiVoice } from './mei-notes';
import { xml, xmlText } from '../xml';

type BarWords = (
  bar: ScoreBar,
  index: number,
) => { readonly ahead: string; readonly after: string };

/** Counted from 0: channel 10 of General MIDI. */
const DRUMS = 9;

/** MEI 5.1: one staff of five lines for percussion, hands and feet as its two voices. */
export function meiDocument(
  score: Score,
  how: Pick<MeiVoice, 'signs' | 'hasTuplets' | 'sound'>,
  words: BarWords,
): string {
  const { title, meter, bars } = score;
  const voices = { ...how, footRests: footRestLoc(score) };
  const measures = bars.map((bar, i) => {
    const { ahead, after } = words(bar, i);
    return ahead + xml('measure', barAttributes(score, i), meiStaff(score, bar, voices), after);
  });
  const staff = xml(
    'staffDef',
    { n: 1, lines: 5, 'clef.shape': 'perc' },
    how.sound ? xml('instrDef', { 'midi.channel': DRUMS, 'midi.instrnum': 0 }) : '',
  );
  const definition = xml(
    'scoreDef',
    { 'meter.count': meter.count, 'meter.unit': meter.unit },
    xml('staffGrp', {}, staff),
  );
  const section = xml('section', {}, ...measures);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.1">',
    `<meiHead><fileDesc><titleStmt><title>${xmlText(title)}</title></titleStmt><pubStmt/></fileDesc></meiHead>`,
    `<music><body><mdiv><score>${definition}${section}</score></mdiv></body></music>`,
    '</mei>',
    '',
  ].join('\n');
}

function barAttributes({ layer, bars, isRepeated }: Score, index: number) {
  const { number } = bars[index]!;
  const isLast = index === bars.length - 1;
  return {
    'xml:id': `l${layer}-bar${index}`,
    n: number,
    metcon: number < 1 ? 'false' : undefined,
    left: isRepeated && number === 1 ? 'rptstart' : undefined,
    right: isLast ? (isRepeated ? 'rptend' : 'end') : undefined,
  };
}

function meiStaff(score: Score, bar: ScoreBar, how: Omit<MeiVoice, 'voice' | 'isAlone'>): string {
  const isSilent = ({ length }: { readonly length: number }) => length === 0;
  const { hands, feet } = bar.voices;
  const isAlone = isSilent(hands) || isSilent(feet);
  const layer = (voice: StaffVoice, n: number) => {
    const notes = meiVoice(bar, { ...how, voice, isAlone });
    const rest = xml(voice === 'hands' && isSilent(feet) ? 'mRest' : 'mSpace', {});
    return xml('layer', { n }, notes === '' ? rest : notes);
  };
  return xml(
    'staff',
    { n: 1 },
    layer('hands', 1),
    layer('feet', 2),
    xml('layer', { n: 3 }, meiAnchors(score, bar)),
  );
}
