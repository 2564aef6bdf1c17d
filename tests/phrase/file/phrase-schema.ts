import { toJsonSchema } from '@valibot/to-json-schema';
import { format } from 'prettier';
import {
  changeSchema,
  phraseFileSchema,
  selectorSchema,
} from '../../../src/phrase/model/phrase-file';

/** The JSON Schema of a phrase file, made from the schema the program itself reads with. */
export const phraseJsonSchema = () => ({
  title: 'Phrase',
  ...toJsonSchema(phraseFileSchema, {
    definitions: { where: selectorSchema, change: changeSchema },
  }),
});

/** As it stands in shared/schemas/phrase.schema.json. */
export const phraseJsonSchemaText = (): Promise<string> =>
  format(JSON.stringify(phraseJsonSchema()), { parser: 'json', printWidth: 100 });
