import {
  childOf,
  childrenOf,
  parseXml,
  textOf,
  type XmlElement,
} from '../../../src/notation/musicxml/xml-tree';

/** All elements in a document, itself included. */
export const withAll = (element: XmlElement): readonly XmlElement[] => [
  element,
  ...element.children.flatMap(withAll),
];

/**
 * What is wrong with a MusicXML file that its schema cannot see (common practice, no source): bars that are not full, a voice
 * that begins elsewhere than at the bar line, brackets without an end, instruments that are not there, tuplets and beams that
 * are not closed, tempo 0.
 */
export function structureFaults(xml: string): readonly string[] {
  const parsed = parseXml(xml);
  if (!parsed.ok) return [parsed.errors[0]!.message];
  const root = parsed.value;
  const faults: string[] = [];
  const ids = withAll(root).flatMap(({ attributes, name }) =>
    name === 'note' && attributes['id'] !== undefined ? [attributes['id']] : [],
  );
  if (new Set(ids).size !== ids.length) faults.push('an id twice');
  if (ids.some((id) => !/^[A-Za-z_][\w.-]*$/.test(id))) faults.push('an id that is no name');
  const instruments = withAll(root)
    .filter(({ name }) => name === 'score-instrument')
    .map(({ attributes }) => attributes['id']!);
  for (const { name, attributes } of withAll(root))
    if (/^(instrument|midi-instrument)$/.test(name) && !instruments.includes(attributes['id']!))
      faults.push(`no instrument ${attributes['id']}`);
  for (const part of childrenOf(root, 'part')) faults.push(...partFaults(part));
  for (const { attributes } of withAll(root).filter(({ name }) => name === 'sound'))
    if (attributes['tempo'] !== undefined && !(Number(attributes['tempo']) > 0))
      faults.push(`tempo ${attributes['tempo']}`);
  return faults;
}

function partFaults(part: XmlElement): readonly string[] {
  const faults: string[] = [];
  let divisions = NaN;
  let barQuarters = NaN;
  let openBrackets = 0;
  for (const measure of childrenOf(part, 'measure')) {
    const at = `bar ${measure.attributes['number']}`;
    const ends: number[] = [];
    let cursor = 0;
    const open = new Map<string, number>();
    const toggle = (key: string, by: number) => open.set(key, (open.get(key) ?? 0) + by);
    for (const item of measure.children) {
      const duration = Number(textOf(item, 'duration') ?? 0);
      if (!Number.isInteger(duration)) faults.push(`${at}: duration ${duration}`);
      if (item.name === 'attributes') {
        divisions = Number(textOf(item, 'divisions') ?? divisions);
        const time = childOf(item, 'time');
        if (time)
          barQuarters = (4 * Number(textOf(time, 'beats'))) / Number(textOf(time, 'beat-type'));
      } else if (item.name === 'backup') {
        ends.push(cursor);
        cursor -= duration;
        if (cursor !== 0) faults.push(`${at}: a voice begins at ${cursor}`);
      } else if (item.name === 'note') {
        if (!childOf(item, 'chord')) cursor += duration;
        if (!childOf(item, 'rest') && !childOf(item, 'instrument'))
          faults.push(`${at}: a note without its instrument`);
        const voice = textOf(item, 'voice')!;
        for (const { name, attributes, text } of withAll(item)) {
          if (name === 'tuplet') toggle(`tuplet ${voice}`, attributes['type'] === 'start' ? 1 : -1);
          if (name === 'beam' && /begin|end/.test(text))
            toggle(`beam ${voice} ${attributes['number']}`, text === 'begin' ? 1 : -1);
        }
      } else if (item.name === 'direction') {
        for (const { name, attributes } of withAll(item))
          if (name === 'bracket') {
            openBrackets += attributes['type'] === 'start' ? 1 : -1;
            if (openBrackets < 0 || openBrackets > 1)
              faults.push(`${at}: ${openBrackets} brackets are open`);
          }
      }
    }
    ends.push(cursor);
    const due = barQuarters * divisions;
    for (const end of ends) {
      if (end !== ends[0]) faults.push(`${at}: voices of ${ends.join(' and ')}`);
      if (measure.attributes['implicit'] !== 'yes' && end !== due)
        faults.push(`${at}: ${end} of ${due} divisions`);
    }
    for (const [what, count] of open) if (count !== 0) faults.push(`${at}: ${what} is not closed`);
  }
  if (openBrackets !== 0) faults.push('a bracket is not closed');
  return faults;
}
