import { existsSync, readFileSync } from 'node:fs';
import {
  XmlBufferInputProvider,
  XmlDocument,
  xmlRegisterInputProvider,
  XmlValidateError,
  XsdValidator,
} from 'libxml2-wasm';

const FOLDER = new URL('../../../../shared/schemas/musicxml-4.0/', import.meta.url);
/** Where the schema's two imports are told to be: no address of the web, and no file. */
const MEMORY = 'memory:';

/** Beside the checkout lies the schema of the W3C Music Notation Community Group, which is not ours to carry. */
export const hasSchema = existsSync(new URL('musicxml.xsd', FOLDER));

let validator: XsdValidator | undefined;

function schema(): XsdValidator {
  if (validator) return validator;
  const bytes = (name: string) => readFileSync(new URL(name, FOLDER));
  xmlRegisterInputProvider(
    new XmlBufferInputProvider({
      [`${MEMORY}xml.xsd`]: bytes('xml.xsd'),
      [`${MEMORY}xlink.xsd`]: bytes('xlink.xsd'),
    }),
  );
  const text = bytes('musicxml.xsd')
    .toString()
    .replace(/schemaLocation="[^"]*?(\w+\.xsd)"/g, `schemaLocation="${MEMORY}$1"`);
  const document = XmlDocument.fromString(text);
  validator = XsdValidator.fromDoc(document);
  document.dispose();
  return validator;
}

/** What the schema of MusicXML 4.0 has against a file; nothing where the schema is not there. */
export function schemaFaults(xml: string): readonly string[] {
  if (!hasSchema) return [];
  const document = XmlDocument.fromString(xml);
  try {
    schema().validate(document);
    return [];
  } catch (error) {
    if (!(error instanceof XmlValidateError)) throw error;
    return error.details.map(({ line, message }) => `line ${line}: ${message.trim()}`);
  } finally {
    document.dispose();
  }
}
