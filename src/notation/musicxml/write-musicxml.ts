import { swingText } from '../../phrase/model/swing';
import { VOICES, type Voice } from '../../phrase/model/voice';
import { KEY_OF_VOICE } from '../general-midi-keys';
import { textElement, xml } from '../xml';
import { eventsOf, STAFF_VOICES, type Score, type ScoreBar } from '../score/score';
import { partialValue } from '../written-values';
import { noteType } from './musicxml-names';
import { direction, quarterDivisions, xmlVoices } from './xml-voices';
import { instrumentId } from './xml-group';

const PART = 'P1';

/**
 * Layers of one phrase as MusicXML 4.0, one part for drums; several follow each other as sections with their names
 * over them, since readers play one part in order, and all parts at once. What MusicXML has no word for (subdivision,
 * cycle, where the first cycle starts) stands under `miscellaneous` for the last of them, the hand of each note as `other-play`.
 *
 * @throws RangeError without a score.
 * @example writeMusicXml([layerScore(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1)]).match(/<measure /g).length // => 3
 */
export function writeMusicXml(scores: readonly Score[]): string {
  const last = scores.at(-1);
  if (!last) throw new RangeError('expected at least one score');
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">',
    xml(
      'score-partwise',
      { version: '4.0' },
      `\n${xml('work', {}, textElement('work-title', last.title))}`,
      `\n${identification(last)}`,
      `\n${partList(scores)}`,
      `\n${xml('part', { id: PART }, ...scoreBars(scores), '\n')}\n`,
    ),
    '',
  ].join('\n');
}

function identification({ subdivision, cycle, displace, period }: Score): string {
  const fields = {
    subdivision,
    cycle,
    'first-cycle-at': displace,
    'comes-round-after': period,
  };
  return xml(
    'identification',
    {},
    xml('encoding', {}, textElement('software', 'layered-phrase-coach')),
    xml(
      'miscellaneous',
      {},
      ...Object.entries(fields).map(([name, value]) =>
        xml('miscellaneous-field', { name }, String(value)),
      ),
    ),
  );
}

function partList(scores: readonly Score[]): string {
  const written = voicesIn(scores);
  return xml(
    'part-list',
    {},
    xml(
      'score-part',
      { id: PART },
      textElement('part-name', 'Drums'),
      ...written.map((voice) =>
        xml('score-instrument', { id: instrumentId(voice) }, textElement('instrument-name', voice)),
      ),
      ...written.map((voice) =>
        xml(
          'midi-instrument',
          { id: instrumentId(voice) },
          textElement('midi-channel', 10),
          textElement('midi-unpitched', KEY_OF_VOICE.get(voice)! + 1),
        ),
      ),
    ),
  );
}

function voicesIn(scores: readonly Score[]): readonly Voice[] {
  const written = new Set<Voice>();
  for (const { bars } of scores)
    for (const bar of bars)
      for (const staffVoice of STAFF_VOICES)
        for (const { notes, graces } of eventsOf(bar, staffVoice))
          for (const { voice } of [...notes, ...graces]) written.add(voice);
  return VOICES.filter((voice) => written.has(voice));
}

function scoreBars(scores: readonly Score[]): readonly string[] {
  const divisions = quarterDivisions(scores);
  const instruments = voicesIn(scores).length;
  let number = 0;
  return scores.flatMap((score, s) =>
    score.bars.map((bar, b) => {
      const isPickup = bar.number < 1;
      if (!isPickup) number++;
      const isFirst = s === 0 && b === 0;
      const isLast = b === score.bars.length - 1;
      return `\n${xml(
        'measure',
        {
          number: isPickup ? `${s === 0 ? '' : 'X'}${number}` : number,
          implicit: isPickup ? 'yes' : undefined,
        },
        s > 0 && b === 0 ? xml('print', { 'new-system': 'yes' }) : '',
        isFirst ? attributes(score, divisions, instruments) : '',
        repeatStart(score, bar),
        b === 0 ? sectionHead(scores, s) : '',
        xmlVoices(score, bar, divisions),
        isLast ? `\n${end(score, s === scores.length - 1)}` : '',
      )}`;
    }),
  );
}

function attributes({ meter }: Score, divisions: number, instruments: number): string {
  return `\n${xml(
    'attributes',
    {},
    textElement('divisions', divisions),
    xml('time', {}, textElement('beats', meter.count), textElement('beat-type', meter.unit)),
    instruments > 1 ? textElement('instruments', instruments) : '',
    xml('clef', {}, textElement('sign', 'percussion')),
    xml('staff-details', {}, textElement('staff-lines', 5)),
  )}`;
}

/** Name of the section, tempo and swing, where they are not as they were. */
function sectionHead(scores: readonly Score[], s: number): string {
  const score = scores[s]!;
  const before = scores[s - 1];
  const name = direction(textElement('rehearsal', score.layerName));
  return name + (before ? '' : tempo(score)) + swing(score, before);
}

function tempo({ meter, tempoBpm }: Score): string {
  const { beat } = partialValue(meter, 1);
  return direction(
    xml(
      'metronome',
      {},
      textElement('beat-unit', noteType(beat.flags)),
      beat.dotted ? xml('beat-unit-dot', {}) : '',
      textElement('per-minute', tempoBpm),
    ),
    xml('sound', { tempo: meter.quartersPerBeat.mul(tempoBpm).valueOf() }),
  );
}

const ratioOf = (score: Score | undefined): string =>
  score?.swing ? swingText(score.swing) : '1:1';

function swing(score: Score, before: Score | undefined): string {
  const ratio = ratioOf(score);
  if (ratio === ratioOf(before)) return '';
  const [first, second] = ratio.split(':') as [string, string];
  const isStraight = first === second;
  return direction(
    textElement('words', isStraight ? 'Straight' : `Swing ${ratio}`),
    xml(
      'sound',
      {},
      xml(
        'swing',
        {},
        ...(isStraight
          ? [xml('straight', {})]
          : [
              textElement('first', first),
              textElement('second', second),
              textElement('swing-type', 'eighth'),
            ]),
      ),
    ),
  );
}

const repeatStart = ({ isRepeated }: Score, { number }: ScoreBar): string =>
  isRepeated && number === 1
    ? `\n${xml(
        'barline',
        { location: 'left' },
        textElement('bar-style', 'heavy-light'),
        xml('repeat', { direction: 'forward' }),
      )}`
    : '';

const end = ({ isRepeated }: Score, isLast: boolean): string =>
  xml(
    'barline',
    { location: 'right' },
    textElement('bar-style', isRepeated || isLast ? 'light-heavy' : 'light-light'),
    isRepeated ? xml('repeat', { direction: 'backward' }) : '',
  );
