import { SaxesParser } from 'saxes';
import { good, type Result } from '../../time/result';
import { refused, type MusicXmlError } from './musicxml-error';

/** An element of an XML document; comments and processing instructions are not kept. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  /** All text directly in it. */
  readonly text: string;
}

interface OpenElement extends XmlElement {
  readonly children: XmlElement[];
  text: string;
}

/** A score has its notes five elements deep. Chosen, not measured. */
const MOST_DEEP = 40;
/** Letters of a file: some 40,000 notes. Chosen, not measured. */
export const MOST_XML = 16_000_000;

/**
 * Reads an XML document in one pass: entities of its own are not known, so none is expanded, and nothing is fetched.
 * (saxes calls back and does not recurse, so that the depth can be limited here.)
 *
 * @example parseXml('<a b="1">x<c/></a>').value.children[0].name // => 'c'
 */
export function parseXml(text: string): Result<XmlElement, MusicXmlError> {
  if (text.length > MOST_XML)
    return refused(
      'TOO_LARGE',
      `The file has ${text.length} letters where ${MOST_XML} are possible; save fewer bars.`,
    );
  const parser = new SaxesParser<{ xmlns: false }>({ xmlns: false });
  const open: OpenElement[] = [];
  let root: XmlElement | undefined;
  let failure: string | undefined;
  const fail = (reason: string) => {
    failure = reason;
    // Leaves the parser, which would go on.
    throw new Error(reason);
  };
  parser.on('error', (error) => fail(error.message.replace(/^\d+:\d+: /, '')));
  parser.on('opentag', ({ name, attributes }) => {
    if (open.length >= MOST_DEEP) fail('elements are nested too deeply');
    const element: OpenElement = { name, attributes, children: [], text: '' };
    open.at(-1)?.children.push(element);
    root ??= element;
    open.push(element);
  });
  const add = (more: string) => {
    const element = open.at(-1);
    if (element) element.text += more;
  };
  parser.on('text', add);
  parser.on('cdata', add);
  parser.on('closetag', () => open.pop());
  try {
    parser.write(text.replace(/^\uFEFF/, '')).close();
  } catch (error) {
    if (failure === undefined) throw error;
  }
  if (failure !== undefined || !root)
    return refused(
      'NOT_XML',
      `This is no XML, since ${failure ?? 'it is empty'}; choose another file, or save it again.`,
      `line ${parser.line}, column ${parser.column}`,
    );
  return good(root);
}

/** The first child of a name. */
export const childOf = (element: XmlElement | undefined, name: string): XmlElement | undefined =>
  element?.children.find((child) => child.name === name);

/** All children of a name. */
export const childrenOf = (element: XmlElement | undefined, name: string): readonly XmlElement[] =>
  element?.children.filter((child) => child.name === name) ?? [];

/** The text of the first child of a name, without space around it. */
export const textOf = (element: XmlElement | undefined, name: string): string | undefined =>
  childOf(element, name)?.text.trim();
