/** Attributes of an element; those that are undefined are left out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

/** What XML 1.0 (2.2, production 2) does not allow in a document, not even as a reference. */
const NOT_XML = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;

/** Text as it stands in XML, in an element or an attribute. @example xmlText('R & L < "K"') // => 'R &amp; L &lt; &quot;K&quot;' */
export const xmlText = (text: string): string =>
  text.replace(NOT_XML, '\uFFFD').replace(/[&<>"]/g, (sign) => ENTITIES[sign]!);

/**
 * An element with what is in it, which is XML already.
 *
 * @example xml('note', { loc: 5, type: undefined }) // => '<note loc="5"/>'
 */
export function xml(name: string, attributes: Attributes, ...inside: readonly string[]): string {
  const words = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${xmlText(String(value))}"`)
    .join('');
  const content = inside.join('');
  return content === '' ? `<${name}${words}/>` : `<${name}${words}>${content}</${name}>`;
}

/** An element with a text or a number in it. @example textElement('beats', 7) // => '<beats>7</beats>' */
export const textElement = (name: string, content: string | number): string =>
  xml(name, {}, xmlText(String(content)));
