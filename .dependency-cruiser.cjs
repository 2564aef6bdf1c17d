/** Folders of src, each with the folders it may import. An arrow that is not here is an error. */
const ENGINE = [
  'time',
  'phrase',
  'kit',
  'match',
  'score',
  'coach',
  'take',
  'capture',
  'notation',
  'index.ts',
];

const MAY_IMPORT = {
  time: [],
  phrase: ['time'],
  kit: ['phrase', 'time'],
  match: ['kit', 'phrase', 'time'],
  score: ['match', 'kit', 'phrase', 'time'],
  coach: ['score', 'match', 'kit', 'phrase', 'time'],
  take: ['kit', 'phrase', 'time'],
  capture: ['kit', 'phrase', 'time', 'take'],
  notation: ['phrase', 'time'],
  'index.ts': ENGINE,
  clock: ENGINE,
  sound: ['clock', ...ENGINE],
  midi: ENGINE,
  store: ENGINE,
  practice: ['clock', 'sound', 'midi', 'store', ...ENGINE],
  view: ['practice', 'clock', 'sound', 'midi', 'store', ...ENGINE],
  cli: ENGINE,
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

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...arrows,
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
      to: { path: 'node_modules/(tone|webmidi|dexie|svelte|@fontsource|@vexflow)' },
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
