/** Words that say what was done to a thing and not what it is; a reader cannot tell value, result and request apart. */
const PARTICIPLES = [
  'made',
  'laid',
  'told',
  'found',
  'heard',
  'said',
  'kept',
  'placed',
  'asked',
  'copied',
  'grown',
];

const wordsOf = (/** @type {string} */ name) =>
  name.split(/_|(?<=[a-z0-9])(?=[A-Z])/).map((word) => word.toLowerCase());

/** @type {import('eslint').Rule.RuleModule} */
const noParticipleExports = {
  meta: {
    type: 'suggestion',
    messages: {
      participle:
        '"{{name}}" calls a thing by what was done to it; say what it is, in the terms of DEVELOPERS.md.',
    },
    schema: [],
  },
  create(context) {
    const check = (/** @type {import('estree').Node | null | undefined} */ id) => {
      if (id?.type !== 'Identifier') return;
      const { name } = id;
      if (wordsOf(name).some((word) => PARTICIPLES.includes(word)))
        context.report({ node: id, messageId: 'participle', data: { name } });
    };
    return {
      ExportNamedDeclaration({ declaration, specifiers }) {
        if (declaration && 'id' in declaration) check(declaration.id);
        if (declaration?.type === 'VariableDeclaration')
          for (const { id } of declaration.declarations) check(id);
        for (const { exported } of specifiers) check(/** @type {any} */ (exported));
      },
    };
  },
};

export default { rules: { 'no-participle-exports': noParticipleExports } };
