// Which room may see which, as one table. A room sees only rooms listed for it, and only through their index.ts.
const SEES = {
  time: [],
  units: [],
  statistics: [],
  results: ['time', 'units'],
  course: ['time', 'units', 'statistics', 'results'],
  models: ['time', 'units', 'statistics', 'results', 'course'],
  plan: ['time', 'units', 'statistics', 'results', 'course', 'models'],
  rules: ['time', 'units', 'statistics', 'results', 'course', 'models', 'plan'],
  standing: ['time', 'units', 'statistics', 'results', 'course', 'models', 'plan', 'rules', 'review'],
  review: ['time', 'results', 'rules'],
  charts: ['time', 'units', 'statistics', 'results', 'course', 'models', 'plan', 'rules', 'review', 'standing'],
  look: ['time', 'units', 'statistics', 'results', 'course', 'models', 'plan', 'rules', 'review', 'standing', 'charts'],
  sheet: ['time', 'units', 'results', 'course', 'plan', 'standing'],
  intake: ['time', 'units', 'results'],
  access: [],
  trail: ['time', 'access'],
  store: ['time', 'units', 'results', 'course', 'models', 'plan', 'rules', 'standing', 'review', 'charts', 'look', 'sheet', 'intake', 'access', 'trail'],
  usecases: [
    'time',
    'units',
    'statistics',
    'results',
    'course',
    'models',
    'plan',
    'rules',
    'standing',
    'review',
    'charts',
    'look',
    'sheet',
    'intake',
    'access',
    'trail',
    'store',
  ],
  cli: [
    'time',
    'units',
    'statistics',
    'results',
    'course',
    'models',
    'plan',
    'rules',
    'standing',
    'review',
    'charts',
    'look',
    'sheet',
    'intake',
    'access',
    'trail',
    'store',
    'usecases',
  ],
}

const order = Object.entries(SEES).flatMap(([room, seen]) => {
  const allowed = [`^lib/${room}/`, ...seen.map((other) => `^lib/${other}/index\\.ts$`)]
  return [
    {
      name: `${room}-sees-only-what-stands-before-it`,
      severity: 'error',
      from: { path: `^lib/${room}/` },
      to: { path: '^(lib|app|seed|tests|bench)/', pathNot: room === 'usecases' ? [...allowed, '^seed/index\\.ts$'] : allowed },
    },
  ]
})

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...order,
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'rules-never-import-each-other',
      comment: 'A rule is one file that exports a rule; what rules share stands in files that are no rule.',
      severity: 'error',
      from: { path: '^lib/rules/(mde|progression|relapse|danger|drift|gaps)/', pathNot: '/index\\.ts$' },
      to: { path: '^lib/rules/(mde|progression|relapse|danger|drift|gaps)/' },
    },
    {
      name: 'database-only-in-store',
      severity: 'error',
      from: { pathNot: '^lib/store/' },
      to: { path: '(better-sqlite3|@prisma/client|lib/store/generated)' },
    },
    {
      name: 'pages-reach-use-cases-only-through-the-server-door',
      severity: 'error',
      from: { path: '^app/', pathNot: '^app/_server/' },
      to: { path: '^lib/(store|usecases|trail|intake)/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'seed-enters-through-intake',
      severity: 'error',
      from: { path: '^seed/' },
      to: { path: '^(lib|app)/', pathNot: '^lib/(time|units|results)/index\\.ts$' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: 'lib/store/generated' },
    tsPreCompilationDeps: 'specify',
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
      extensions: ['.ts', '.tsx', '.js', '.mjs'],
    },
  },
}
