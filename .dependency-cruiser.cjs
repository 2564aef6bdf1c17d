/** Folders of src, each with the folders it may import. An arrow that is not here is an error. */
const ENGINE = [
  'words',
  'time',
  'phrase',
  'kit',
  'match',
  'control',
  'score',
  'live',
  'coach',
  'take',
  'capture',
  'exchange',
  'notation',
  'index.ts',
];

const MAY_IMPORT = {
  words: [],
  time: [],
  phrase: ['time', 'words'],
  kit: ['phrase', 'time', 'words'],
  match: ['kit', 'phrase', 'time'],
  control: ['match', 'kit', 'phrase', 'time', 'words'],
  score: ['match', 'kit', 'phrase', 'time'],
  coach: ['score', 'match', 'kit', 'phrase', 'time', 'words'],
  live: ['coach', 'score', 'take', 'match', 'kit', 'phrase', 'time'],
  take: ['kit', 'phrase', 'time'],
  capture: ['take', 'match', 'kit', 'phrase', 'time', 'words'],
  exchange: ['notation', 'capture', 'take', 'match', 'kit', 'phrase', 'time', 'words'],
  notation: ['phrase', 'time'],
  'index.ts': ENGINE,
  clock: ENGINE,
  sound: ['clock', ...ENGINE],
  midi: ENGINE,
  store: ['clock', ...ENGINE],
  practice: ['clock', 'sound', 'midi', 'store', ...ENGINE],
  view: ['practice', 'clock', 'sound', 'midi', 'store', ...ENGINE],
  cli: ['index.ts', 'words'],
};

/** Rooms inside src/phrase, in the same way. */
const PHRASE_MAY_IMPORT = {
  model: [],
  layers: ['model'],
  check: ['model', 'layers'],
  file: ['model', 'layers', 'check'],
  playability: ['model', 'layers'],
  edit: ['model', 'layers', 'check'],
  vary: ['model', 'layers', 'check', 'playability'],
  form: ['model', 'layers', 'check', 'playability', 'vary'],
  decompose: ['model', 'layers', 'check'],
};

/** @param {string[]} places */
const inside = (places) =>
  `^src/(${places.map((place) => (place.endsWith('.ts') ? `${place.replace('.', '\\.')}$` : `${place}/`)).join('|')})`;

const arrows = Object.entries(MAY_IMPORT).map(([folder, allowed]) => ({
  name: `arrow-from-${folder.replace('.ts', '')}`,
  severity: 'error',
  from: { path: inside([folder]) },
  to: { path: '^src/', pathNot: inside([folder, ...allowed]) },
}));

const phraseArrows = Object.entries(PHRASE_MAY_IMPORT).map(([folder, allowed]) => ({
  name: `arrow-from-phrase-${folder}`,
  severity: 'error',
  from: { path: `^src/phrase/${folder}/` },
  to: { path: '^src/phrase/', pathNot: `^src/phrase/(${[folder, ...allowed].join('|')})/` },
}));

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...arrows,
    ...phraseArrows,
    {
      name: 'component-outside-view',
      comment:
        'Type imports of a .svelte file are not seen here; view is on top, so it may have them.',
      severity: 'error',
      from: { path: '^src/.*\\.svelte$', pathNot: inside(['view']) },
      to: {},
    },
    { name: 'cycle', severity: 'error', from: {}, to: { circular: true } },
    { name: 'src-to-tests', severity: 'error', from: { path: '^src/' }, to: { path: '^tests/' } },
    {
      name: 'unresolvable',
      severity: 'error',
      from: { path: '^src/' },
      to: { couldNotResolve: true },
    },
    {
      name: 'node-outside-cli',
      severity: 'error',
      from: { path: '^src/', pathNot: inside(['cli']) },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'browser-library-in-engine-or-cli',
      severity: 'error',
      from: { path: inside([...ENGINE, 'cli']) },
      to: { path: 'node_modules/(tone|webmidi|idb|svelte|@fontsource|@vexflow)' },
    },
    {
      name: 'dev-dependency-in-src',
      severity: 'error',
      from: { path: '^src/' },
      to: { dependencyTypes: ['npm-dev'] },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.svelte.ts', '.svelte', '.js', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['svelte', 'import', 'browser', 'types', 'default'],
    },
  },
};
