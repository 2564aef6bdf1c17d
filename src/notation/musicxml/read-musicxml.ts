import { decompose } from '../../phrase/decompose/decompose';
import {
  handsGuessed,
  inBarOrder,
  remarkOnAll,
  type FileRemark,
} from '../../phrase/decompose/file-remark';
import { possibleTempo } from '../../phrase/decompose/possible-tempo';
import type { TargetPattern } from '../../phrase/decompose/target-pattern';
import type { Phrase } from '../../phrase/model/phrase';
import { MAX_CYCLE } from '../../phrase/model/phrase-file';
import { beats } from '../../time/beats';
import { parseMeter, type Meter } from '../../time/meter';
import { bad, good, type Result } from '../../time/result';
import { barsInTime, type BarInTime } from './bars-in-time';
import { drumPart } from './drum-part';
import { refused, type MusicXmlError } from './musicxml-error';
import { lastLayer } from './last-layer';
import { instrumentsOf } from './voice-of-note';
import { barsInPartials } from './bars-in-partials';
import { patternOfStrokes } from './pattern-of-strokes';
import { readBars } from './read-bars';
import { readHints, readTitle, type MusicXmlHints } from './read-hints';
import { swingOf, tempoOf } from './tempo-and-swing';
import { parseXml } from './xml-tree';

/** What of a score becomes a phrase; all of it unless told otherwise. */
export interface MusicXmlExcerpt {
  /** 1-based, counted from the first whole bar. */
  readonly fromBar?: number;
  /** How many. */
  readonly bars?: number;
}

/** A score for drums, read. */
export interface MusicXmlReading {
  /** Split into layers. */
  readonly phrase: Phrase;
  /** The same notes as they stand there. */
  readonly pattern: TargetPattern;
  /** What stands in the file and is not in the phrase, or is only guessed, in bar order after what is about all of it. */
  readonly unread: readonly FileRemark[];
  /** Of the hands' strokes, how many the file says the hand of, 0 to 1; the others have a likely one. */
  readonly stickingShare: number;
}

/**
 * Reads the part for drums of a MusicXML score (partwise) as a phrase: its bars once, as they are written, which then come
 * round; of several layers that `writeMusicXml` wrote, the last. What a phrase has no word for is told by bar. Refused: what is no MusicXML, has no drums, or is too long for
 * one phrase.
 *
 * @example readMusicXml(writeMusicXml([layerScore(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1)])).value.phrase.groupingText // => 'R L K'
 */
export function readMusicXml(
  text: string,
  excerpt: MusicXmlExcerpt = {},
): Result<MusicXmlReading, MusicXmlError> {
  const parsed = parseXml(text);
  if (!parsed.ok) return parsed;
  const root = parsed.value;
  if (root.name === 'score-timewise')
    return refused(
      'TIMEWISE',
      'This score lists its bars first and the parts in each (timewise); save it with the parts first (partwise).',
    );
  if (root.name !== 'score-partwise')
    return refused(
      'NOT_MUSICXML',
      `This XML begins with "${root.name.slice(0, 40)}", and MusicXML with "score-partwise"; choose a MusicXML file.`,
    );
  const drums = drumPart(root);
  if (!drums)
    return refused(
      'NO_DRUMS',
      'No part of this score has notes without pitch, as drums have; choose a score for drums.',
    );
  const all = readBars(drums.part, instrumentsOf(drums.scorePart));
  const meterText = all.find(({ meter }) => meter !== undefined)?.meter ?? '4/4';
  const meter = parseMeter(meterText);
  if (!meter)
    return refused(
      'METER',
      `The score is in ${meterText.slice(0, 20)}, and a phrase in 1 to 32 over 4, 8 or 16; write it in one of these.`,
    );
  const hints = readHints(root);
  const isLayers = hints.cycle !== undefined && Object.keys(excerpt).length === 0;
  const { bars, unread: others } = isLayers ? lastLayer(all) : { bars: all, unread: [] };
  const { inTime, unread } = barsInTime(bars, meter, meterText);
  const score = { title: readTitle(root), hints, meter, meterText, bars: inTime };
  return readScore({ ...score, unread: [...drums.unread, ...others, ...unread] }, excerpt);
}

interface DrumScore {
  readonly title: string;
  readonly hints: MusicXmlHints;
  readonly meter: Meter;
  readonly meterText: string;
  readonly bars: readonly BarInTime[];
  readonly unread: readonly FileRemark[];
}

function readScore(
  { title, hints, meter, meterText, bars, unread: before }: DrumScore,
  excerpt: MusicXmlExcerpt,
): Result<MusicXmlReading, MusicXmlError> {
  const written = bars.filter(({ number }) => number > 0).length;
  const { fromBar = 1, bars: count = written - fromBar + 1 } = excerpt;
  const span = `Bars ${fromBar} to ${fromBar + count - 1}`;
  if (
    ![fromBar, count].every((one) => one >= 1 && Number.isSafeInteger(one)) ||
    fromBar + count - 1 > written
  )
    return refused(
      'BARS',
      `${span} are asked for, and the score has 1 to ${written}; ask for some of these.`,
    );
  const unread = [...before];
  const tempo = tempoOf(bars, meter, unread);
  const music = barsInPartials(
    excerptOf(bars, fromBar, count, meter),
    meter,
    tempo,
    hints.subdivision,
  );
  const { subdivision, strokes, stickingShare } = music;
  unread.push(...handsGuessed(stickingShare), ...music.unread);
  const swing = swingOf(bars, meter, subdivision, unread);
  const { tempoBpm, remarks } = possibleTempo(tempo, meter, subdivision);
  unread.push(...remarks);
  const isAll = count === written && subdivision === hints.subdivision;
  const barPartials = meter.beatsPerBar * subdivision;
  const { pattern, cycle, isCutShort } = patternOfStrokes(
    strokes,
    {
      meter: meterText,
      subdivision,
      tempoBpm,
      ...(swing !== undefined && { swing }),
    },
    { partials: count * barPartials, barPartials },
    isAll ? hints : {},
  );
  if (isCutShort)
    unread.push(
      remarkOnAll(
        'The score ends before all of the phrase has come round; what is written comes round instead.',
      ),
    );
  if (pattern.notes.length === 0)
    return refused(
      'PATTERN_EMPTY',
      'Nothing is struck in these bars; choose bars with notes for drums.',
    );
  if (cycle === undefined && pattern.cyclePartials > MAX_CYCLE)
    return refused(
      'PATTERN_TOO_LONG',
      `${span} are too long for one phrase, which has ${Math.max(1, Math.floor(MAX_CYCLE / barPartials))} of them at most; ask for fewer bars.`,
    );
  const phrase = takenApart(pattern, title, cycle);
  if (phrase.ok)
    return good({ phrase: phrase.value, pattern, unread: inBarOrder(unread), stickingShare });
  return bad(...phrase.errors.map(({ code, message }) => ({ code, place: '', message })));
}

/** The bars that are asked for, the pickup with the first; the first of them from beat 0 on. */
function excerptOf(
  bars: readonly BarInTime[],
  fromBar: number,
  count: number,
  meter: Meter,
): readonly BarInTime[] {
  const start = beats((fromBar - 1) * meter.beatsPerBar);
  const first = fromBar === 1 ? 0 : fromBar;
  return bars
    .filter(({ number }) => number >= first && number < fromBar + count)
    .map((bar) => ({ ...bar, from: bar.from.sub(start) }));
}

function takenApart(pattern: TargetPattern, title: string, cycle: number | undefined) {
  if (cycle !== undefined) {
    const asWritten = decompose(pattern, title, { cycle });
    if (asWritten.ok) return asWritten;
  }
  return decompose(pattern, title);
}
