import js from '@eslint/js';
import { defineConfig, globalIgnores } from 'eslint/config';
import globals from 'globals';
import ts from 'typescript-eslint';
import names from './name-rules.mjs';

// Components stay in the one TypeScript program, rather than in a new one for each; asked for before the parser loads.
process.env['SVELTE_ESLINT_PARSER_EXPERIMENTAL_TS_SYS_HOOK'] = '1';
const { default: svelte } = await import('eslint-plugin-svelte');

const ENGINE = [
  'src/index.ts',
  'src/{words,time,phrase,kit,match,control,score,coach,live,take,capture,exchange,notation}/**/*.ts',
];

const CLOCK_AND_CHANCE = 'time and chance come into the engine as arguments.';
const NOT_IN_ENGINE = ['Date', 'performance', 'setTimeout', 'setInterval', 'console', 'process'];
const maxLines = (/** @type {number} */ max) => ({
  'max-lines': ['error', { max, skipBlankLines: true, skipComments: true }],
});

export default defineConfig(
  globalIgnores(['node_modules/', 'dist/', 'coverage/', '.mutation/', '.svelte-check/', 'shared/']),
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  js.configs.recommended,
  ts.configs.recommendedTypeChecked,
  svelte.configs.recommended,
  {
    languageOptions: {
      globals: { ...globals.browser, ...globals.node },
      parserOptions: {
        projectService: true,
        tsconfigRootDir: `${import.meta.dirname}/..`,
        extraFileExtensions: ['.svelte'],
      },
    },
    rules: {
      // `typeof import('tone')` is how the type of a module loaded later is written.
      '@typescript-eslint/consistent-type-imports': ['error', { disallowTypeAnnotations: false }],
      '@typescript-eslint/no-import-type-side-effects': 'error',
      '@typescript-eslint/prefer-readonly': 'error',
      '@typescript-eslint/require-await': 'off',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      eqeqeq: 'error',
      'no-console': 'error',
    },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser } },
    rules: {
      // TypeScript reports these, and knows the runes.
      'no-undef': 'off',
      // `let { x } = $props()` must be `let` where one of the names is bound.
      'prefer-const': 'off',
      'svelte/prefer-const': 'error',
      'svelte/no-at-html-tags': 'error',
      'svelte/no-inline-styles': ['error', { allowTransitions: true }],
    },
  },
  {
    // Snippets and what is awaited in markup have no type here, and svelte-check knows the types of all components.
    files: ['**/*.svelte'],
    rules: {
      '@typescript-eslint/no-redundant-type-constituents': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
    },
  },
  { files: ['**/*.ts'], rules: { 'no-undef': 'off' } },
  {
    files: ['src/**'],
    plugins: { names },
    rules: {
      ...maxLines(300),
      'names/no-participle-exports': 'error',
      '@typescript-eslint/max-params': ['error', { max: 5 }],
    },
  },
  {
    files: ['src/**'],
    ignores: ['src/cli/**'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            { group: ['node:*'], message: 'Only src/cli runs in Node.' },
            { group: ['**/cli/**', '**/tests/**'], message: 'Nothing imports from there.' },
          ],
        },
      ],
    },
  },
  {
    files: ENGINE,
    rules: {
      // Only here: browser code must ask for interfaces that the DOM types call always present.
      '@typescript-eslint/no-unnecessary-condition': 'error',
      'no-restricted-globals': [
        'error',
        ...NOT_IN_ENGINE.map((name) => ({
          name,
          message: `Not in the engine: ${CLOCK_AND_CHANCE}`,
        })),
      ],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: `Not in the engine: ${CLOCK_AND_CHANCE}` },
      ],
    },
  },
  {
    files: ['tests/**'],
    rules: {
      ...maxLines(500),
      // Tests read JSON and hand mocks around; what is wrong with them shows when they run.
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
      '@typescript-eslint/unbound-method': 'off',
    },
  },
  { files: ['src/cli/**', 'tests/bench/**', '.scripts/**'], rules: { 'no-console': 'off' } },
  { files: ['**/*.{mjs,cjs,js}'], extends: [ts.configs.disableTypeChecked] },
);
