import type { drawFrom } from './mutation';

type Draw = ReturnType<typeof drawFrom>;

/** What is put in, anywhere: entities, markup of pages, nesting, what XML forbids, numbers that no score has. */
const PIECES = [
  '&a;',
  '&#0;',
  '&#x110000;',
  '<script>alert(1)</script>',
  '<![CDATA[<note/>]]>',
  '<!-- -- -->',
  '<?xml version="1.0"?>',
  '<a>'.repeat(200),
  '</a>'.repeat(200),
  '\u0000',
  '\uD800',
  '😀',
  '<chord/>',
  '<grace/>',
  '<tie type="stop"/>',
  '<rest/>',
  '<backup><duration>999999999</duration></backup>',
  '<forward><duration>999999999</duration></forward>',
  '<attributes><divisions>0</divisions></attributes>',
  '<attributes><time><beats>32</beats><beat-type>16</beat-type></time></attributes>',
];
const NUMBERS = ['0', '-1', '1', '2', '3', '5', '7', '11', '0.5', '1e9', '999999999', 'NaN', ''];
const PREFACE = `<!DOCTYPE score-partwise [<!ENTITY a "${'lol'.repeat(50)}"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>`;

/** The text of a score with one to four faults, most of them between or in its elements. */
export function mutatedXml(xml: string, draw: Draw): string {
  let text = xml;
  for (let faults = 1 + draw(4); faults > 0; faults--) text = fault(text, draw);
  return text;
}

function fault(text: string, draw: Draw): string {
  const at = Math.max(0, text.indexOf('<', draw(text.length)));
  const notes = [...text.matchAll(/<(note|measure|direction|attributes|backup)\b[^]*?<\/\1>/g)];
  const piece = PIECES[draw(PIECES.length)]!;
  const note = notes[draw(notes.length)];
  switch (draw(10)) {
    case 0:
      return text.slice(0, at) + piece + text.slice(at);
    case 1:
      return text.slice(0, at) + text.slice(text.indexOf('>', at) + 1);
    case 2:
      return note ? text.replace(note[0], '') : text;
    case 3:
      return note ? text.replace(note[0], () => note[0] + note[0]) : text;
    case 4:
      return note
        ? text.slice(0, note.index) + notes[draw(notes.length)]![0] + text.slice(note.index)
        : text;
    case 5:
      return withNumber(text, draw);
    case 6:
      return withNumber(text, draw);
    case 7:
      return draw(4) === 0 ? text.slice(0, at) : withNumber(text, draw);
    case 8:
      return draw(4) === 0 ? PREFACE + text.replace(/^<\?xml[^>]*>/, '') : withNumber(text, draw);
    default:
      return text.slice(0, at) + text.slice(at + 1 + draw(12));
  }
}

function withNumber(text: string, draw: Draw): string {
  const numbers = [...text.matchAll(/>(\d+)</g)];
  const number = numbers[draw(numbers.length)];
  if (!number) return text;
  const put = NUMBERS[draw(NUMBERS.length)]!;
  return text.slice(0, number.index + 1) + put + text.slice(number.index + number[0].length - 1);
}
