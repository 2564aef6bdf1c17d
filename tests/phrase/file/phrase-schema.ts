import { toJsonSchema } from '@valibot/to-json-schema';
import { format } from 'prettier';
import { phraseListSchema } from '../../../src/phrase/file/phrase-list';
import {
  changeSchema,
  phraseFileSchema,
  selectorSchema,
} from '../../../src/phrase/model/phrase-file';

const definitions = { where: selectorSchema, change: changeSchema };

/** The JSON Schema of a phrase file, made from the schema the program itself reads with. */
export const phraseJsonSchema = () => ({
  title: 'Phrase',
  ...toJsonSchema(phraseFileSchema, { definitions }),
});

const schemaText = (schema: object): Promise<string> =>
  format(JSON.stringify(schema), { parser: 'json', printWidth: 100 });

/** As it stands in shared/schemas/phrase.schema.json. */
export const phraseJsonSchemaText = (): Promise<string> => schemaText(phraseJsonSchema());

/** The same of a file of several phrases, as it stands in shared/schemas/phrases.schema.json. */
export const phraseListJsonSchemaText = (): Promise<string> =>
  schemaText({
    title: 'Phrases',
    ...toJsonSchema(phraseListSchema, {
      definitions: { ...definitions, phrase: phraseFileSchema },
    }),
  });
